/**
 * tests/bench/scale.ts: `npm run bench -- scale`: how many probes one machine carries, and what it costs in memory.
 *
 * Takes:  nothing; BRANHEARTH_BENCH_PROBES="1000,50000" measures other sizes.
 * Gives:  `probes_live`, the most probes (a reading each minute) whose readings reach an open page within 1 s at p99.
 */
import { type LiveRun, liveRun } from './scale/live-run.ts';

const limitMs = 1_000;

export async function run(): Promise<Record<string, number>> {
  const sizes = (process.env.BRANHEARTH_BENCH_PROBES ?? '1000,50000').split(',').map(Number);
  const runs: LiveRun[] = [];
  for (const probes of sizes) {
    runs.push(await liveRun({ probes, warmS: probes > 10_000 ? 90 : 20, measureS: 60 }));
    console.table(runs.slice(-1));
  }
  const holding = runs.filter(
    ({ p99Ms, neverShown, sent, acked }) => p99Ms < limitMs && neverShown === 0 && acked === sent,
  );
  return {
    probes_live: Math.max(0, ...holding.map(({ probes }) => probes)),
    ...Object.fromEntries(runs.map(({ probes, rssMb }) => [`rss_mb_${probes}`, rssMb])),
    ...Object.fromEntries(runs.map(({ probes, p99Ms }) => [`p99_ms_${probes}`, p99Ms])),
  };
}
