/** `npm run bench -- curves`: how long an expected curve takes: 200 members over 14 days. */
import { expectedBand } from '../../core/expect/expected-band.ts';
import { materialFacts } from '../../core/profiles/material-facts.ts';
import { materials } from '../../shared/profiles/material-names.ts';
import { stageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';

const runs = 15;
const members = 200;
const hours = 14 * 24;

export async function run(): Promise<Record<string, number>> {
  const startMs = Date.UTC(2031, 4, 1);
  const air = Array.from({ length: hours }, (_, hour) => ({
    atMs: startMs + hour * msPerHour,
    tempC: 20 + 6 * Math.cos((2 * Math.PI * (hour - 15)) / 24),
  }));
  const worst: number[] = [];
  console.log(`${'material'.padEnd(14)}min ms   median ms`);
  for (const material of materials) {
    const stage = materialFacts[material].isSoil ? 'soil' : 'bran';
    const setup = {
      stage,
      startedAtMs: startMs,
      limits: stageLimits[stage],
      recipe: { material, depthM: 0.3, cover: 'breathable' },
      acts: [{ kind: 'turned', atMs: startMs + 80 * msPerHour }],
    } as const;
    const times = Array.from({ length: runs }, () => {
      const from = performance.now();
      expectedBand(setup, air, startMs + hours * msPerHour, { members });
      return performance.now() - from;
    }).sort((one, other) => one - other);
    const median = times[Math.floor(runs / 2)] ?? 0;
    worst.push(median);
    console.log(`${material.padEnd(14)}${(times[0] ?? 0).toFixed(1).padStart(6)}${median.toFixed(1).padStart(12)}`);
  }
  return { ensemble_ms: Math.round(Math.max(...worst) * 10) / 10, members, days: 14 };
}
