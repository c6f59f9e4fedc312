/**
 * `npm run bench -- scale [live|workers|influx]`: how many probes one machine carries, what that
 * costs in memory, what a second worker brings, and what InfluxDB's own client would reach.
 *
 * Options: the part to run, all of them one after the other unless given; BRANHEARTH_BENCH_PROBES="1000,50000" measures
 * other sizes live.
 * Figures: `probes_live`, the most probes (a reading each minute) whose readings reach an open page within 1 s at p99;
 * `ratio_two_workers`, medians of rounds in turn; `influx_ratio_client`.
 */
import { cpus } from 'node:os';
import { hasInflux } from '../helpers/influxdb.ts';
import { hasMosquitto } from '../helpers/mosquitto.ts';
import { hasPostgres } from '../helpers/postgres.ts';
import { type LiveRun, liveRun } from './scale/live-run.ts';
import { messages, siteCount, type WorkersRun, workersRun } from './scale/workers-run.ts';
import { median } from './table.ts';

const limitMs = 1_000;
const rounds = 3;

const parts: Record<string, () => Promise<Record<string, number>>> = { live, workers, influx };

export async function run(part?: string): Promise<Record<string, number>> {
  const asked = part === undefined ? Object.values(parts) : [parts[part]];
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
    console.warn('*** SKIPPED: two workers need PostgreSQL, InfluxDB 1.6 and Mosquitto ***');
    return {};
  }
  const ones: WorkersRun[] = [];
  const twos: WorkersRun[] = [];
  for (let round = 0; round < rounds; round += 1) {
    ones.push(await workersRun(1));
    twos.push(await workersRun(2));
  }
  console.log(`${messages} messages of two readings over ${siteCount} sites, ${rounds} runs each in turn`);
  console.table([...ones, ...twos]);
  const all = [...ones, ...twos];
  const of = (name: 'workerUs' | 'influxUs' | 'mosquittoUs' | 'publisherUs') => median(all.map((run) => run[name]));
  const cost = of('workerUs') + of('influxUs') + of('mosquittoUs') + of('publisherUs');
  const one = median(ones.map(({ msgsPerS }) => msgsPerS));
  const allowed = (cpus().length * 1e6) / cost;
  console.log(
    `Everything shares ${cpus().length} cores: a message takes ${cost} µs of them in all programs together, so no number of workers takes more than ${Math.round(allowed)} messages/s here, ${(allowed / one).toFixed(2)} of what one does.`,
  );
  return {
    // Of each round by itself, as its two runs find the machine equally busy.
    ratio_two_workers: round2(median(twos.map(({ msgsPerS }, at) => msgsPerS / (ones[at]?.msgsPerS ?? Number.NaN)))),
    ratio_cores_allow: round2(allowed / one),
    one_worker_msgs_per_s: one,
    two_workers_msgs_per_s: median(twos.map(({ msgsPerS }) => msgsPerS)),
    worker_us_per_msg: of('workerUs'),
    influx_us_per_msg: of('influxUs'),
    mosquitto_us_per_msg: of('mosquittoUs'),
    publisher_us_per_msg: of('publisherUs'),
    workers_lost: all.reduce((total, { lost }) => total + lost, 0),
  };
}

async function influx(): Promise<Record<string, number>> {
  if (!hasInflux) {
    console.warn('*** SKIPPED: the bare client of InfluxDB needs InfluxDB 1.6 ***');
    return {};
  }
  const { influx_ratio_client = Number.NaN } = await (await import('./influx.ts')).run();
  return { influx_ratio_client };
}

const round2 = (value: number) => Math.round(value * 100) / 100;
