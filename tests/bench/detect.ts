/**
 * `npm run bench -- detect`: the judge against simulated piles whose truth is known.
 *
 * Options: BENCH_PILES piles per half (300 of development and 1,200 reported when absent); `--half development`, `reported` or `shifted` for one of them alone;
 * `--seed 410001` for another draw of the reported half; `--from 200` for the development piles from that number of each generator on; `--untold` for growers who tell neither shelter nor rain;
 * `--columns 1h,hand` for some of the ways of reading alone, `--columns none` for none;
 * `--only words` for the development piles whose name has the words, each missed and false alarm named.
 * Figures: those of the reported half; `dev_` of the half that rules are tried out on, `shifted_` of the reported half
 * with every material and growth constant moved by up to 20 %, `fixed_` of two fixed thresholds, `real_` of the
 * litter heap; `by_rhythm` and `by_mishap` of the same piles read otherwise (detect/columns.ts).
 * It never tunes anything, or names the piles of the reported half: whoever has looked at them can no longer report on them.
 */
import { parseArgs } from 'node:util';
import { type Case, caseOf } from './detect/case.ts';
import { type Column, caseAs, mishaps, rhythms } from './detect/columns.ts';
import { farmCases } from './detect/farm-cases.ts';
import { fixedThreshold } from './detect/fixed-threshold.ts';
import { anybody, mishandled, purposeful } from './detect/generators.ts';
import { realHeap } from './detect/real-heap.ts';
import { Tally } from './detect/tally.ts';
import { watch } from './detect/watch.ts';

const shift = 0.2;
/** Fresh for each look at the reported half; `--seed` repeats an earlier one. */
const reportedSeed = 2_440_001;
const halves = ['development', 'reported', 'shifted'];

type Figures = Record<string, number>;

export async function run(): Promise<Record<string, number | Record<string, Figures>>> {
  const {
    half,
    only,
    untold,
    seed,
    from,
    columns: columnNames,
  } = parseArgs({
    args: process.argv.slice(3),
    options: {
      half: { type: 'string' },
      only: { type: 'string' },
      untold: { type: 'boolean', default: false },
      seed: { type: 'string' },
      from: { type: 'string', default: '0' },
      columns: { type: 'string', default: [...rhythms, ...mishaps].join() },
    },
  }).values;
  if (half !== undefined && !halves.includes(half))
    throw new Error(
      `Cannot run half the bench as --half must be one of ${halves.join(', ')}: current value is ${half}`,
    );
  const { BENCH_PILES } = process.env;
  const developmentPiles = Number(BENCH_PILES ?? 300);
  const piles = Number(BENCH_PILES ?? 1200); // a recall of 0.99 wants a hundred piles of each trouble
  const asked = (name: string): boolean => (only === undefined ? (half ?? name) === name : name === 'development');
  const asRead = [...rhythms, ...mishaps].filter((column) => columnNames.split(',').includes(column));
  const developed = asked('development')
    ? judgeAll('development half', developmentCases(developmentPiles, Number(from), only), untold, asRead)
    : undefined;
  const reported = asked('reported')
    ? judgeAll('reported half', farmCases(Number(seed ?? reportedSeed), piles), untold, asRead)
    : undefined;
  const shifted = asked('shifted')
    ? judgeAll('reported half, constants moved', farmCases(Number(seed ?? reportedSeed), piles, shift), untold, [])
    : undefined;
  const real = realHeap();
  const columns = {
    wanted: wanted as Record<string, number | string>,
    reported: reported?.judge.figures() ?? {},
    shifted: shifted?.judge.figures() ?? {},
    dev: developed?.judge.figures() ?? {},
    fixed: reported?.fixed.figures() ?? {},
  };
  printTable(columns);
  for (const [name, one] of Object.entries({ reported, shifted, development: developed })) {
    if (one === undefined) continue;
    console.log(`${name} half, counted:`, JSON.stringify(one.judge.counts));
    printColumns(name, one);
  }
  if (developed !== undefined) {
    for (const [name, tally] of [['drawn', developed.judge] as const, ...developed.columns]) {
      console.log(`missed, ${name}:\n  `, tally.missedNames.join('\n   '));
      console.log(`false, ${name}:\n  `, tally.falseNames.join('\n   '));
    }
  }
  console.log('real heap:', JSON.stringify(real));
  return {
    ...columns.reported,
    ...prefixed('shifted_', columns.shifted),
    ...prefixed('dev_', columns.dev),
    ...prefixed('fixed_', columns.fixed),
    ...real,
    ...otherwise(reported, ''),
    ...otherwise(developed, 'dev_'),
  };
}

function otherwise(judged: Judged | undefined, prefix: string): Record<string, Record<string, Figures>> {
  if (judged === undefined) return {};
  const figuresOf = (columns: readonly Column[]): Record<string, Figures> =>
    Object.fromEntries(
      columns.flatMap((column) => {
        const tally = judged.columns.get(column);
        return tally === undefined ? [] : [[column, tally.figuresOfReading()]];
      }),
    );
  return { [`${prefix}by_rhythm`]: figuresOf(rhythms), [`${prefix}by_mishap`]: figuresOf(mishaps) };
}

function printColumns(name: string, { judge, columns }: Judged): void {
  const figures = new Map([['10min', judge.figuresOfReading()]]);
  for (const [column, tally] of columns) figures.set(column, tally.figuresOfReading());
  console.log(`\n${name} half, as read`.padEnd(35), ...[...figures.keys()].map((column) => column.padStart(9)));
  for (const figure of Object.keys(judge.figuresOfReading())) {
    const cells = [...figures.values()].map((one) => String(one[figure] ?? '').padStart(9));
    console.log(figure.padEnd(34), ...cells);
  }
  for (const [column, { counts }] of columns) console.log(`${column}, counted:`, JSON.stringify(counts));
}

function* developmentCases(piles: number, from: number, only: string | undefined): Generator<Case, void, undefined> {
  for (let number = from; number < from + piles / 3; number += 1) {
    for (const draw of [purposeful, anybody, mishandled]) {
      const scenario = draw(number);
      if (only === undefined || only.split(',').some((words) => `${scenario.name},`.includes(`${words},`)))
        yield caseOf(scenario);
    }
  }
}

const wanted = {
  overheating_recall: '>= 0.99',
  overheating_clear_recall: '>= 0.99',
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

interface Judged {
  readonly judge: Tally;
  readonly fixed: Tally;
  /** The same piles, read otherwise. */
  readonly columns: ReadonlyMap<Column, Tally>;
}

function judgeAll(name: string, cases: Iterable<Case>, untold: boolean, asRead: readonly Column[]): Judged {
  const judge = new Tally();
  const fixed = new Tally();
  const columns = new Map(asRead.map((column) => [column, new Tally()]));
  for (const drawn of cases) {
    const one = untold ? withoutShelter(drawn) : drawn;
    judge.add(one, watch(one));
    fixed.add(one, fixedThreshold(one));
    for (const [column, tally] of columns) {
      const read = caseAs(column, one);
      if (read !== undefined) tally.add(read, watch(read));
    }
    if (judge.piles % 100 === 0) console.log(`${name}: ${judge.piles} piles`);
  }
  return { judge, fixed, columns };
}

function withoutShelter(one: Case): Case {
  const told = { ...one.scenario.told, shelter: undefined, rainShare: 0 };
  return { ...one, scenario: { ...one.scenario, told } };
}

function printTable(columns: Record<string, Record<string, number | string>>): void {
  const names = Object.keys(columns);
  console.log(['figure'.padEnd(32), ...names.map((name) => name.padStart(10))].join(''));
  for (const figure of Object.keys({ ...columns.reported, ...columns.dev })) {
    console.log(
      [figure.padEnd(32), ...names.map((name) => String(columns[name]?.[figure] ?? '').padStart(10))].join(''),
    );
  }
}

function prefixed(prefix: string, figures: Record<string, number>): Record<string, number> {
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [prefix + name, value]));
}
