/**
 * tests/bench/soak.ts: `npm run bench -- soak`: an hour of 10,000 probes, a reading a minute each, in one SQLite house.
 *
 * Takes:  BRANHEARTH_BENCH_SPEED, how many times faster than real, 20 unless told: readings, probes and house then share
 *         one fast clock, and the hour is three minutes; 1 is a real hour. BRANHEARTH_BENCH_WARM_MIN for another time of warming up.
 * Gives:  whether memory grows and pages fall behind, by regression over the hour after twenty minutes of warming up;
 *         what was lost. An hour is one of the house's clock; lags are real time.
 */
import { join } from 'node:path';
import { fastClock } from '../../shared/clock.ts';
import { openSqliteReadings } from '../../shared/store/sqlite-readings.ts';
import { makeDataDir } from '../helpers/open-test-house.ts';
import { spawnHouse } from '../helpers/spawn-house.ts';
import { openLiveLag } from './scale/live-lag.ts';
import { startPacedPublisher } from './scale/paced-publisher.ts';
import { residentMb } from './scale/resident.ts';
import { layScaleFarm, scaleProbes } from './scale/scale-farm.ts';

const probeCount = Number(process.env.BRANHEARTH_BENCH_PROBES ?? 10_000);
const speed = Number(process.env.BRANHEARTH_BENCH_SPEED ?? 20);
const warmMin = Number(process.env.BRANHEARTH_BENCH_WARM_MIN ?? 20);
const soakMin = 60;
/** House time between looks. */
const everyMin = 2;

interface Look {
  readonly hour: number;
  readonly rssMb: number;
  readonly p50Ms: number;
  readonly p99Ms: number;
}

export async function run(): Promise<Record<string, number>> {
  const { dataDir, remove } = await makeDataDir();
  const probes = scaleProbes(probeCount);
  const nowMs = Date.now();
  await layScaleFarm(dataDir, probes, nowMs);
  const before = await rowsIn(dataDir);
  const setting = { startMs: Date.now(), anchorMs: Date.now(), speed };
  const house = await spawnHouse(dataDir, {
    environment: { CLOCK: JSON.stringify(setting), LOG_LEVEL: 'info' },
    patienceMs: 600_000,
  });
  try {
    const page = await openLiveLag(house.pagesUrl);
    const publisher = await startPacedPublisher(
      house.mqttUrl,
      probes,
      ({ pileId, position }, atMs, sentMs) => page.published(pileId, position, atMs, sentMs),
      fastClock(setting),
    );
    await minutes(warmMin);
    const looks: Look[] = [];
    for (let minute = everyMin; minute <= soakMin; minute += everyMin) {
      page.restart();
      await minutes(everyMin);
      const { lagsMs } = page.figures();
      const at = (share: number) => lagsMs[Math.floor(share * (lagsMs.length - 1))] ?? Number.NaN;
      looks.push({ hour: minute / 60, rssMb: await residentMb(house.child.pid), p50Ms: at(0.5), p99Ms: at(0.99) });
    }
    await publisher.stop();
    const { sent, acked, mostBehindMs } = publisher.counts();
    await new Promise((resolve) => setTimeout(resolve, 5_000));
    const neverShown = page.figures().waiting;
    page.close();
    await house.stop();
    const lost = sent - ((await rowsIn(dataDir)) - before);
    console.log(
      `${probeCount} probes, a reading a minute each by a clock ${speed} times as fast: ${Math.round((probeCount * speed) / 60)} readings/s, ${soakMin} minutes of the house after ${warmMin} of warming up`,
    );
    console.table(
      looks.filter((_, index) => index % 5 === 4).map((look) => ({ ...look, hour: Math.round(look.hour * 100) / 100 })),
    );
    return {
      probes: probeCount,
      speed,
      readings: sent,
      unacknowledged: sent - acked,
      lost,
      never_shown: neverShown,
      rss_mb: looks.at(-1)?.rssMb ?? Number.NaN,
      rss_growth_mb_per_h: slope(looks.map(({ hour, rssMb }) => [hour, rssMb])),
      lag_p50_ms: looks.at(-1)?.p50Ms ?? Number.NaN,
      lag_p99_ms: looks.at(-1)?.p99Ms ?? Number.NaN,
      lag_p50_growth_ms_per_h: slope(looks.map(({ hour, p50Ms }) => [hour, p50Ms])),
      lag_p99_growth_ms_per_h: slope(looks.map(({ hour, p99Ms }) => [hour, p99Ms])),
      publisher_behind_ms: Math.round(mostBehindMs),
    };
  } finally {
    await house.stop('SIGKILL');
    await remove();
  }
}

/** Of the house's clock. */
const minutes = (count: number) => new Promise((resolve) => setTimeout(resolve, (count * 60_000) / speed));

async function rowsIn(dataDir: string): Promise<number> {
  const store = openSqliteReadings(join(dataDir, 'readings.db'));
  const { rows } = await store.size();
  await store.close();
  return rows;
}

/** Of the straight line nearest to the points (least squares). */
function slope(points: readonly (readonly [x: number, y: number])[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const meanX = mean(points.map(([x]) => x));
  const meanY = mean(points.map(([, y]) => y));
  const rise = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  return Math.round((10 * rise) / points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0)) / 10;
}
