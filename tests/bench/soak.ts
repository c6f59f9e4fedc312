/**
 * `npm run bench -- soak`: an hour of 10,000 probes, a reading a minute each, in one SQLite server.
 *
 * Options: BRANHEARTH_BENCH_SPEED, how many times faster than real, 20 unless given: readings, probes and server then share
 * one fast clock, and the hour is three minutes; 1 is a real hour. BRANHEARTH_BENCH_WARM_MIN for another time of
 * warming up than twenty minutes, BRANHEARTH_BENCH_SOAK_MIN for another than an hour.
 * Figures: what was lost, and minute by minute lag and memory and what it is made of: whether they grow, over the whole
 * time and over its second half, where what only fills has filled. An hour is one of the server's clock; lags
 * are real time.
 */
import { join } from 'node:path';
import { fastClock } from '../../shared/clock.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { openLiveLag } from './scale/live-lag.ts';
import { startPacedPublisher } from './scale/paced-publisher.ts';
import { layScaleFarm, scaleProbes } from './scale/scale-farm.ts';
import { memoryPort } from './soak/memory-port.ts';
import { type SoakLook, snapshotOf, soakFigures } from './soak/soak-figures.ts';

const probeCount = Number(process.env.BRANHEARTH_BENCH_PROBES ?? 10_000);
const speed = Number(process.env.BRANHEARTH_BENCH_SPEED ?? 20);
const warmMin = Number(process.env.BRANHEARTH_BENCH_WARM_MIN ?? 20);
const soakMin = Number(process.env.BRANHEARTH_BENCH_SOAK_MIN ?? 60);
/** Rows of the table that is printed. */
const shownRows = 12;

export async function run(): Promise<Record<string, number | readonly number[]>> {
  const { dataDir, remove } = await makeDataDir();
  const probes = scaleProbes(probeCount);
  const nowMs = Date.now();
  await layScaleFarm(dataDir, probes, nowMs);
  const before = await rowsIn(dataDir);
  const setting = { startMs: Date.now(), anchorMs: Date.now(), speed };
  const memory = memoryPort(dataDir);
  const installation = await spawnInstallation(dataDir, {
    environment: { CLOCK: JSON.stringify(setting), LOG_LEVEL: 'info' },
    plainEnvironment: memory.plainEnvironment,
    patienceMs: 600_000,
    // As `npm start` has it.
    nodeArguments: ['--max-semi-space-size=4', ...memory.nodeArguments],
  });
  try {
    const page = await openLiveLag(installation.pagesUrl);
    const publisher = await startPacedPublisher(
      installation.mqttUrl,
      probes,
      ({ pileId, position }, atMs, sentMs) => page.published(pileId, position, atMs, sentMs),
      fastClock(setting),
    );
    await minutes(warmMin);
    const collected = [await memory.ask('collected')];
    const looks: SoakLook[] = [];
    for (let minute = 1; minute <= soakMin; minute += 1) {
      page.restart();
      await minutes(1);
      looks.push(snapshotOf(page.figures().lagsMs, await memory.ask()));
      // Seldom, as it is not what a server does by itself; what is in use between is garbage in part.
      if (minute % Math.ceil(soakMin / 4) === 0 || minute === soakMin) collected.push(await memory.ask('collected'));
    }
    await publisher.stop();
    const { sent, acked, mostBehindMs, breaks } = publisher.counts();
    await new Promise((resolve) => setTimeout(resolve, 5_000));
    const neverShown = page.figures().waiting;
    page.close();
    await installation.stop();
    const lost = sent - ((await rowsIn(dataDir)) - before);
    console.log(
      `${probeCount} probes, a reading a minute each by a clock ${speed} times as fast: ${Math.round((probeCount * speed) / 60)} readings/s, ${soakMin} minutes of the server after ${warmMin} of warming up`,
    );
    const rowEvery = Math.max(1, Math.floor(soakMin / shownRows));
    console.table(
      looks.map((look, index) => ({ minute: index + 1, ...look })).filter(({ minute }) => minute % rowEvery === 0),
    );
    return {
      probes: probeCount,
      speed,
      warm_min: warmMin,
      soak_min: soakMin,
      readings: sent,
      unacknowledged: sent - acked,
      lost,
      never_shown: neverShown,
      line_breaks: breaks,
      publisher_behind_ms: Math.round(mostBehindMs),
      ...soakFigures(looks, collected),
    };
  } finally {
    await installation.stop('SIGKILL');
    await remove();
  }
}

/** Of the server's clock. */
const minutes = (count: number) => new Promise((resolve) => setTimeout(resolve, (count * 60_000) / speed));

async function rowsIn(dataDir: string): Promise<number> {
  const store = openSqliteReadings(join(dataDir, 'readings.db'));
  const { rows } = await store.size();
  await store.close();
  return rows;
}
