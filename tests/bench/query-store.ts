/**
 * The embedded readings store alone: how fast it keeps, how small, how fast it answers.
 *
 * No route, no MQTT: what is left to those of the figures of `ingest` and `query`.
 */
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Reading } from '../../shared/reading.ts';
import type { ReadingsStore, SeriesRef } from '../../shared/store/readings-store.ts';
import { openSqliteReadings } from '../../shared/store/sqlite-readings.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { median, printTable } from './table.ts';

const site = 'saltmere-yard';
const minuteMs = 60_000;
const minutesOfYear = 525_600;
const batchRows = 1_000;
const keptRows = 400_000;
const fromMs = Date.UTC(2031, 0, 1);

const seriesOf = (index: number): SeriesRef => ({ site, probe: `probe-${index}`, quantity: 'temperature' });

export async function run(): Promise<Record<string, number>> {
  const { dataDir, remove } = await makeDataDir();
  const path = join(dataDir, 'readings.db');
  try {
    const few = await rowsPerS(path, 4);
    const many = await rowsPerS(path, 1_000);
    const { bytesPerRow, yearMs, openMs } = await year(path);
    printTable([
      ['kept from 4 probes', few, 'readings/s, batches of 1,000'],
      ['kept from 1,000 probes', many, 'readings/s, batches of 1,000'],
      ['a reading with its rollups', bytesPerRow, 'bytes, a year of 4 probes'],
      ['opened with that year', openMs, 'ms'],
      ['that year in 1,000 points', yearMs, 'ms, median of 21'],
    ]);
    return { rows_per_s_4: few, rows_per_s_1000: many, bytes_per_row: bytesPerRow, year_ms: yearMs, open_ms: openMs };
  } finally {
    await remove();
  }
}

/** Batches as they come from JSON: every string and object new. */
function batchFrom(first: number, probes: number): Reading[] {
  const readings = Array.from({ length: batchRows }, (_, index) => {
    const place = first + index;
    const value = 20 + Math.round(100 * Math.sin(place / 229)) / 10;
    return { ...seriesOf(place % probes), value, atMs: fromMs + Math.floor(place / probes) * minuteMs };
  });
  return JSON.parse(JSON.stringify(readings));
}

async function fill(store: ReadingsStore, probes: number, rows: number): Promise<number> {
  let tookMs = 0;
  for (let first = 0; first < rows; first += batchRows) {
    const batch = batchFrom(first, probes);
    const startMs = performance.now();
    await store.append(batch);
    tookMs += performance.now() - startMs;
  }
  return tookMs;
}

async function rowsPerS(path: string, probes: number): Promise<number> {
  const store = openSqliteReadings(path);
  const tookMs = await fill(store, probes, keptRows);
  await store.close();
  await Promise.all(['', '-wal', '-shm'].map((end) => rm(path + end, { force: true })));
  return Math.round((keptRows / tookMs) * 1000);
}

async function year(path: string): Promise<{ bytesPerRow: number; yearMs: number; openMs: number }> {
  const filled = openSqliteReadings(path);
  await fill(filled, 4, 4 * minutesOfYear);
  await filled.close();
  const openedMs = performance.now();
  const store = openSqliteReadings(path);
  const openMs = performance.now() - openedMs;
  const { rows, bytes } = await store.size();
  const times: number[] = [];
  for (let round = 0; round < 21; round += 1) {
    const startMs = performance.now();
    await store.buckets([0, 1, 2, 3].map(seriesOf), fromMs, fromMs + minutesOfYear * minuteMs, 1_000);
    times.push(performance.now() - startMs);
  }
  await store.close();
  return { bytesPerRow: bytes / rows, yearMs: median(times), openMs };
}
