/**
 * tests/bench/detect.ts: `npm run bench -- detect`: the judge against simulated piles whose truth is known.
 *
 * Takes:  BENCH_PILES piles per half (300 when absent).
 * Gives:  the figures of the reported half; `dev_` of the half that was tuned on, `shifted_` of the reported half with every
 *         material and growth constant moved by up to 20 %, `fixed_` of two fixed thresholds, `real_` of the litter heap.
 * Never:  tunes anything: the two halves differ in seeds and in the way piles are invented.
 */
import { fixedThreshold } from './detect/fixed-threshold.ts';
import { anybody, purposeful } from './detect/generators.ts';
import { realHeap } from './detect/real-heap.ts';
import type { Scenario } from './detect/scenario.ts';
import { Tally } from './detect/tally.ts';
import { truthOf } from './detect/truth.ts';
import { watch } from './detect/watch.ts';
import { runWorld } from './detect/world.ts';

const shift = 0.2;

export async function run(): Promise<Record<string, number>> {
  const piles = Number(process.env.BENCH_PILES ?? 300);
  const developed = judgeAll('development half', piles, (number) => purposeful(number));
  const reported = judgeAll('reported half', piles, (number) => anybody(number));
  const shifted = judgeAll('reported half, constants moved', piles, (number) => anybody(number, shift));
  const real = realHeap();
  const columns = {
    wanted: wanted as Record<string, number | string>,
    reported: reported.judge.figures(),
    shifted: shifted.judge.figures(),
    dev: developed.judge.figures(),
    fixed: reported.fixed.figures(),
  };
  printTable(columns);
  console.log('reported half, counted:', JSON.stringify(reported.judge.counts));
  console.log('missed:\n  ', reported.judge.missedNames.join('\n   '));
  console.log('false:\n  ', reported.judge.falseNames.join('\n   '));
  console.log('real heap:', JSON.stringify(real));
  return {
    ...columns.reported,
    ...prefixed('shifted_', columns.shifted),
    ...prefixed('dev_', columns.dev),
    ...prefixed('fixed_', columns.fixed),
    ...real,
  };
}

const wanted = {
  overheating_recall: '>= 0.99',
  overheating_lead_h_median: '>= 3',
  drying_recall: '>= 0.95',
  drying_before_40pct_share: '>= 0.9',
  stalling_recall: '>= 0.95',
  stalling_delay_h_median: '<= 12',
  probe_fault_recall: '>= 0.98',
  false_alarms_per_pile_week: '<= 0.05',
  forecast12h_mae_c: '<= 1.5',
  forecast12h_skill_persistence: '>= 0.3',
  forecast12h_skill_trend: '>= 0.2',
  band_coverage: '0.75-0.85',
  moisture_mae_pct: '<= 4',
};

function judgeAll(
  name: string,
  piles: number,
  scenarioOf: (number: number) => Scenario,
): { judge: Tally; fixed: Tally } {
  const judge = new Tally();
  const fixed = new Tally();
  for (let number = 0; number < piles; number += 1) {
    const scenario = scenarioOf(number);
    const world = runWorld(scenario);
    const one = { scenario, world, truth: truthOf(scenario, world) };
    judge.add(one, watch(scenario, world));
    fixed.add(one, fixedThreshold(scenario, world));
    if (number % 50 === 49) console.log(`${name}: ${number + 1} of ${piles} piles`);
  }
  return { judge, fixed };
}

function printTable(columns: Record<string, Record<string, number | string>>): void {
  const names = Object.keys(columns);
  console.log(['figure'.padEnd(32), ...names.map((name) => name.padStart(10))].join(''));
  for (const figure of Object.keys(columns.reported ?? {})) {
    console.log(
      [figure.padEnd(32), ...names.map((name) => String(columns[name]?.[figure] ?? '').padStart(10))].join(''),
    );
  }
}

function prefixed(prefix: string, figures: Record<string, number>): Record<string, number> {
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [prefix + name, value]));
}
