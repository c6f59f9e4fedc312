/**
 * A year of eight probes downsampled to its last 90 days, while new readings keep coming in.
 *
 * Between two steps one batch is kept, as fast as the store takes it: nothing waits longer than the longest step.
 */
import { join } from 'node:path';
import type { Reading } from '../../shared/reading.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import type { ReadingsStore, SeriesRef } from '../../shared/store/readings-store.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { median, printTable, sum } from './table.ts';

const probes = 8;
const minuteMs = 60_000;
const minutesOfYear = 525_600;
const batchRows = 1_000;
const fromMs = Date.UTC(2031, 0, 1);
const toMs = fromMs + minutesOfYear * minuteMs;
const beforeMs = toMs - 90 * 1_440 * minuteMs;

const seriesOf = (index: number): SeriesRef => ({
  site: 'saltmere-yard',
  probe: `probe-${index}`,
  quantity: 'temperature',
});

/** The next batch at each call, oldest first. */
function batches(): () => Reading[] {
  let first = -batchRows;
  return () => {
    first += batchRows;
    return batchFrom(first);
  };
}

function batchFrom(first: number): Reading[] {
  return Array.from({ length: batchRows }, (_, index) => {
    const place = first + index;
    const value = 20 + Math.round(100 * Math.sin(place / 229)) / 10;
    return { ...seriesOf(place % probes), value, atMs: fromMs + Math.floor(place / probes) * minuteMs };
  });
}

async function timed(act: () => Promise<unknown>): Promise<number> {
  const startMs = performance.now();
  await act();
  return performance.now() - startMs;
}

async function yearMs(store: ReadingsStore): Promise<number> {
  const all = Array.from({ length: probes }, (_, index) => seriesOf(index));
  const times: number[] = [];
  for (let round = 0; round < 11; round += 1) {
    times.push(await timed(() => store.buckets(all, fromMs, toMs, 1_000)));
  }
  return median(times);
}

export async function run(): Promise<Record<string, number>> {
  const { dataDir, remove } = await makeDataDir();
  const path = join(dataDir, 'readings.db');
  try {
    const filled = openSqliteReadings(path);
    const next = batches();
    const fills: number[] = [];
    while (fills.length * batchRows < probes * minutesOfYear) fills.push(await timed(() => filled.append(next())));
    await filled.close();

    const store = openSqliteReadings(path);
    const before = await store.size();
    const weight = await store.weigh(0, beforeMs);
    const yearBeforeMs = await yearMs(store);
    const steps: number[] = [];
    const appends: number[] = [];
    let removed = 0;
    for (let done = false; !done; ) {
      const startMs = performance.now();
      const step = await store.downsample(beforeMs);
      steps.push(performance.now() - startMs);
      removed += step.removed;
      done = step.done;
      appends.push(await timed(() => store.append(next())));
    }
    await store.close();
    const again = openSqliteReadings(path);
    const after = await again.size();
    const yearAfterMs = await yearMs(again);
    await again.close();
    const figures = {
      rows: before.rows,
      removed,
      bytes_before: before.bytes,
      bytes_after: after.bytes,
      bytes_weighed: weight.bytes,
      step_median_ms: median(steps),
      step_longest_ms: Math.max(...steps),
      append_longest_ms: Math.max(...appends),
      fill_longest_ms: Math.max(...fills),
      appended_per_s: Math.round((1000 * batchRows * appends.length) / sum(appends)),
      filled_per_s: Math.round((1000 * probes * minutesOfYear) / sum(fills)),
      thinned_per_s: Math.round((1000 * removed) / sum(steps)),
      year_before_ms: yearBeforeMs,
      year_after_ms: yearAfterMs,
    };
    printTable(Object.entries(figures).map(([name, value]) => [name, value, '']));
    return figures;
  } finally {
    await remove();
  }
}
