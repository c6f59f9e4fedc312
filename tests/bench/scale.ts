/**
 * `npm run bench -- scale [live|workers|unwatched|watched|influx]`: how many probes one machine carries, what that costs in
 * memory, what a message costs one worker, two, four and eight on the same cores, and what InfluxDB's own client would
 * reach.
 *
 * Options: the part to run, all of them one after the other unless given; BRANHEARTH_BENCH_PROBES="1000,50000" measures
 * other sizes live, BRANHEARTH_BENCH_WORKERS="2,8" other numbers of workers.
 * Figures: `probes_live`, the most probes (a reading each minute) whose readings reach an open page within 1 s at p99;
 * processor time for a message by numbers of workers, without piles (medians of rounds in turn) and watched;
 * `influx_ratio_client`.
 */
import { cpus } from 'node:os';
import { hasInflux } from '../helpers/influxdb.ts';
import { hasMosquitto } from '../helpers/mosquitto.ts';
import { hasPostgres } from '../helpers/postgres.ts';
import { type LiveRun, liveRun } from './scale/live-run.ts';
import { type WatchedRun, watchedRun } from './scale/watched-run.ts';
import { messages, siteCount, type WorkersRun, workersRun } from './scale/workers-run.ts';
import { median, sum } from './table.ts';

const limitMs = 1_000;
const rounds = 3;
const workerCounts = (process.env.BRANHEARTH_BENCH_WORKERS ?? '1,2,4,8').split(',').map(Number);
const programs = ['worker', 'postgres', 'influx', 'mosquitto'] as const;

/** What runs where no part is asked for. */
const whole = { live, workers, influx };
const parts: Record<string, () => Promise<Record<string, number>>> = { ...whole, unwatched, watched };

export async function run(part?: string): Promise<Record<string, number>> {
  const asked = part === undefined ? Object.values(whole) : [parts[part]];
  const figures: Record<string, number> = {};
  for (const one of asked) {
    if (!one) throw new Error(`Cannot run part ${part} as the parts are ${Object.keys(parts).join(', ')}`);
    Object.assign(figures, await one());
  }
  return figures;
}

async function live(): Promise<Record<string, number>> {
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

async function workers(): Promise<Record<string, number>> {
  if (!hasInflux || !hasMosquitto || !hasPostgres) {
    console.warn('*** SKIPPED: workers need PostgreSQL, InfluxDB 1.6 and Mosquitto ***');
    return {};
  }
  return { ...(await unwatched()), ...(await watched()) };
}

/** As fast as they can, no pile. */
async function unwatched(): Promise<Record<string, number>> {
  const runs: WorkersRun[] = [];
  for (let round = 0; round < rounds; round += 1) {
    for (const count of workerCounts) runs.push(await workersRun(count));
  }
  console.log(`${messages} messages of two readings over ${siteCount} sites, ${rounds} runs each in turn`);
  console.table(runs.toSorted((a, b) => a.workers - b.workers));
  const of = (name: keyof WorkersRun, count: number) =>
    median(runs.filter(({ workers: had }) => had === count).map((run) => run[name]));
  const cost = (count: number) => sum(programs.map((program) => of(`${program}Us`, count)));
  const allowed = (cpus().length * 1e6) / (cost(1) + of('publisherUs', 1));
  console.log(
    `Everything shares ${cpus().length} cores: with one worker a message takes ${cost(1) + of('publisherUs', 1)} µs of them in all programs together, so no number of workers takes more than ${Math.round(allowed)} messages/s here.`,
  );
  return {
    ...byWorkers('msgs_per_s', (count) => of('msgsPerS', count)),
    ...byWorkers('worker_us_per_msg', (count) => of('workerUs', count)),
    ...byWorkers('all_us_per_msg', cost),
    workers_lost: sum(runs.map(({ lost }) => lost)),
  };
}

/** A farm with piles at its own pace. */
async function watched(): Promise<Record<string, number>> {
  const runs: WatchedRun[] = [];
  for (const count of workerCounts) {
    runs.push(await watchedRun(count));
    console.table(runs.slice(-1));
  }
  console.table(runs);
  const of = (count: number) => runs.find(({ workers: had }) => had === count);
  return {
    ...byWorkers('watched_worker_us_per_msg', (count) => of(count)?.workerUs),
    ...byWorkers('watched_postgres_us_per_msg', (count) => of(count)?.postgresUs),
    ...byWorkers('watched_all_us_per_msg', (count) => sum(programs.map((program) => of(count)?.[`${program}Us`] ?? 0))),
    watched_lost: sum(runs.map(({ lost }) => lost)),
  };
}

const byWorkers = (name: string, of: (count: number) => number | undefined): Record<string, number> =>
  Object.fromEntries(workerCounts.map((count) => [`${name}_${count}`, of(count) ?? Number.NaN]));

async function influx(): Promise<Record<string, number>> {
  if (!hasInflux) {
    console.warn('*** SKIPPED: the bare client of InfluxDB needs InfluxDB 1.6 ***');
    return {};
  }
  const { influx_ratio_client = Number.NaN } = await (await import('./influx.ts')).run();
  return { influx_ratio_client };
}
