/** A process that keeps numbered batches until somebody kills it. */
import { writeSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Reading } from '../../../shared/reading.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import { beginMs, someSeries } from './arbitrary-readings.ts';

export const readingsPerBatch = 40;

/** Batch `n`: every series a reading a minute, every fourth batch turned round so that some come late. */
export function numberedBatch(n: number): Reading[] {
  const batch = Array.from({ length: readingsPerBatch }, (_, index) => {
    const minute = (n * readingsPerBatch + index) / someSeries.length;
    const series = someSeries[index % someSeries.length] ?? someSeries[0];
    if (series === undefined) throw new Error('there must be a series');
    return { ...series, atMs: beginMs + Math.floor(minute) * 60_000, value: ((n * 7 + index) % 640) / 8 };
  });
  return n % 4 === 0 ? batch.reverse() : batch;
}

/** What batch `n` lets go when downsampling: all but the newest five hours. */
export function downsampledBeforeMs(n: number): number {
  return beginMs + ((n * readingsPerBatch) / someSeries.length - 300) * 60_000;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [, , path = '', first = '0', thin] = process.argv;
  const store = openSqliteReadings(path, { flushAt: 200, flushRows: 30, downsampleRows: 25 });
  for (let n = Number(first); ; n += 1) {
    await store.append(numberedBatch(n));
    if (thin === 'thin') for (const _ of someSeries) await store.downsample(Math.max(0, downsampledBeforeMs(n)));
    writeSync(1, `${n}\n`);
  }
}
