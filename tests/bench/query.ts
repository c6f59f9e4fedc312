/**
 * How long the series route takes for a year of four probes at one minute, in 1,000 buckets.
 *
 * Beside it the same buckets gathered from raw rows by the database alone, and 24 batches laid over each other (compare.ts).
 */
import { join } from 'node:path';
import pino from 'pino';
import { buildApp } from '../../server/app/app.ts';
import { openInstallation } from '../../server/app/open-single.ts';
import { liveClock } from '../../shared/clock.ts';
import { readConfig } from '../../shared/config.ts';
import type { Position } from '../../shared/names.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import Database from '../../shared/store/sqlite-driver.ts';
import { bandsAtOnce, makeDataDir } from '../helpers/open-test-server.ts';
import { timeCompare } from './compare.ts';
import { median, printTable } from './table.ts';

const site = 'saltmere-yard';
const places: Position[] = ['core', 'top', 'base', 'air'];
const minuteMs = 60_000;
const minutesOfYear = 525_600;
const points = 1_000;
const rounds = 21;

export async function run(): Promise<Record<string, number>> {
  const { dataDir, remove } = await makeDataDir();
  const toMs = Math.floor(Date.now() / minuteMs) * minuteMs;
  const fromMs = toMs - minutesOfYear * minuteMs;
  try {
    const fillS = await fill(join(dataDir, 'readings.db'), fromMs);
    const yearMs = await timeRoute(dataDir, fromMs, toMs);
    const rawMs = timeRaw(join(dataDir, 'readings.db'), fromMs, toMs);
    const { compareMs, measuresMs } = await timeCompare();
    printTable([
      ['rows', places.length * minutesOfYear, ''],
      ['filled in', fillS, 's'],
      ['a year by the route', yearMs, 'ms, median of 21'],
      ['the same from raw rows', rawMs, 'ms, median of 5'],
      ['24 batches of 14 days laid over each other', compareMs, 'ms, median of 21'],
      ['their table of measures', measuresMs, 'ms, median of 21'],
    ]);
    return {
      year_ms: yearMs,
      raw_ms: rawMs,
      ratio_raw: yearMs / rawMs,
      rows: places.length * minutesOfYear,
      compare_ms: compareMs,
      measures_ms: measuresMs,
    };
  } finally {
    await remove();
  }
}

async function fill(path: string, fromMs: number): Promise<number> {
  const store = await openSqliteReadings(path);
  const startMs = performance.now();
  const batch = 2_500;
  for (let first = 0; first < minutesOfYear; first += batch) {
    const minutes = Array.from({ length: Math.min(batch, minutesOfYear - first) }, (_, i) => first + i);
    await store.append(
      minutes.flatMap((minute) =>
        places.map((probe, place) => ({
          site,
          probe,
          quantity: 'temperature' as const,
          atMs: fromMs + minute * minuteMs,
          value: 20 + 10 * Math.sin(minute / 229 + place) + (minute % 7) / 10,
        })),
      ),
    );
  }
  const tookS = (performance.now() - startMs) / 1000;
  await store.close();
  return tookS;
}

async function timeRoute(dataDir: string, fromMs: number, toMs: number): Promise<number> {
  const { config } = readConfig({
    BRANHEARTH_MQTT_PORT: '0',
    BRANHEARTH_DATA_DIR: dataDir,
    BRANHEARTH_LOG_LEVEL: 'silent',
  });
  const installation = await openInstallation({
    config,
    clock: liveClock,
    log: pino({ level: 'silent' }),
    version: 'bench',
    bands: bandsAtOnce,
  });
  const app = await buildApp(installation);
  try {
    await app.inject({ method: 'POST', url: '/api/sites', payload: { name: 'Saltmere Yard' } });
    const startedAt = new Date(toMs - 7 * 86_400_000).toISOString();
    await app.inject({
      method: 'POST',
      url: '/api/piles',
      payload: { site, id: 'year', name: 'Year', stage: 'bran', startedAt },
    });
    for (const position of places) {
      const url = `/api/probes/${site}/${position}/claim`;
      await app.inject({ method: 'POST', url, payload: { pileId: 'year', position, from: fromMs } });
    }
    const address = await app.listen({ host: '127.0.0.1', port: 0 });
    const query = new URLSearchParams({
      from: new Date(fromMs).toISOString(),
      to: new Date(toMs).toISOString(),
      points: String(points),
    });
    const times: number[] = [];
    for (let round = 0; round < rounds; round++) {
      const startMs = performance.now();
      const answer = await fetch(`${address}/api/piles/year/series?${query}`, {
        headers: { 'accept-encoding': 'identity' },
      });
      const series = (await answer.json()) as { positions: Record<string, { temperatureC?: unknown[] }> };
      times.push(performance.now() - startMs);
      for (const position of places) {
        const buckets = series.positions[position]?.temperatureC?.length ?? 0;
        if (buckets < points / 3 || buckets > points) throw new Error(`${buckets} buckets at ${position}`);
      }
    }
    return median(times);
  } finally {
    await app.close();
    await installation.close();
  }
}

/** What the database alone takes to group the raw rows of the four probes. */
function timeRaw(path: string, fromMs: number, toMs: number): number {
  const database = new Database(path, { readonly: true });
  const bucketMs = Math.ceil((toMs - fromMs) / points);
  const group = database.prepare(
    `SELECT series_id, at_ms / ${bucketMs} AS bucket, min(value), avg(value), max(value), count(*)
     FROM reading WHERE at_ms >= ? AND at_ms < ? GROUP BY series_id, bucket`,
  );
  const times: number[] = [];
  for (let round = 0; round < 5; round++) {
    const startMs = performance.now();
    const rows = group.raw().all(fromMs, toMs);
    times.push(performance.now() - startMs);
    if (rows.length < points) throw new Error(`only ${rows.length} buckets from raw rows`);
  }
  database.close();
  return median(times);
}
