import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { StoreError } from '../../../shared/errors.ts';
import type { Reading } from '../../../shared/reading.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import { lengthOf } from '../../../shared/store/readings/tiers.ts';
import { downsampledBeforeMs, numberedBatch, readingsPerBatch } from './append-until-killed.ts';
import { beginMs, dayMs, someSeries } from './arbitrary-readings.ts';
import { downsampleWhole } from './readings-store-contract.ts';
import { rollupsAndRaw } from './rollups-and-raw.ts';
import { scratchFolder } from './scratch.ts';

const program = fileURLToPath(new URL('../../../.build/tests/shared/store/append-until-killed.js', import.meta.url));

/** Runs the program from batch `first` on, kills it after so many acknowledged batches, and gives the last of them. */
async function killAfter(
  path: string,
  first: number,
  batches: number,
  whileRunning: () => void,
  manner = 'keep',
): Promise<number> {
  const child = spawn(process.execPath, [program, path, String(first), manner], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let output = '';
  const ended = new Promise<void>((resolve) => child.once('close', () => resolve()));
  await new Promise<void>((resolve, reject) => {
    child.once('exit', () => reject(new Error('the program ended by itself')));
    child.stdout.on('data', (chunk: Buffer) => {
      output += chunk.toString();
      if (output.split('\n').length > batches) resolve();
    });
  });
  whileRunning();
  // Somewhere in a commit or a flush, not just after an acknowledgement.
  await pause(first % 7);
  child.kill('SIGKILL');
  await ended;
  return Number(output.trimEnd().split('\n').at(-1));
}

test('a process killed again and again has every acknowledged reading once, in rows and rollups', async () => {
  expect(existsSync(program), 'compile first: node server/build.mjs').toBe(true);
  const path = join(scratchFolder(), 'readings.db');
  let acknowledged = -1;
  for (let round = 0; round < 6; round += 1) {
    // The last acknowledged batch comes again, as after an acknowledgement that was lost.
    acknowledged = await killAfter(path, Math.max(0, acknowledged), 20 + round * 3, () => {
      if (round === 0) expect(() => openSqliteReadings(path)).toThrow(StoreError);
    });
    const store = openSqliteReadings(path, { flushAt: 200, flushRows: 30 });
    const rows = await store.rows(someSeries, 0, beginMs + 400 * dayMs, 1_000_000);
    const keptBatches = rows.length / readingsPerBatch;
    // One batch more may be kept than was told of: the kill came between its commit and the telling.
    expect([acknowledged + 1, acknowledged + 2]).toContain(keptBatches);
    const sent = Array.from({ length: keptBatches }, (_, n) => numberedBatch(n)).flat();
    expect((await store.append(sent)).duplicateCount).toBe(sent.length);
    await store.close();
    const { rollups, fromRaw, waiting } = rollupsAndRaw(path);
    expect(rollups).toEqual(fromRaw);
    expect(waiting).toBe(0);
  }
});

/** How many readings each ten minutes, hour and three hours of a series must count. */
function countsOf(readings: readonly Reading[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { site, probe, quantity, atMs } of readings) {
    for (const tier of [0, 1, 2]) {
      const id =
        someSeries.findIndex((one) => one.site === site && one.probe === probe && one.quantity === quantity) + 1;
      const key = [tier, id, Math.floor(atMs / lengthOf(tier)) * lengthOf(tier)].join();
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
  }
  return counts;
}

test('a process killed again and again while it thins has every acknowledged reading once in its rollups', async () => {
  const path = join(scratchFolder(), 'readings.db');
  let acknowledged = -1;
  let downsampledToMs = 0;
  for (let round = 0; round < 8; round += 1) {
    acknowledged = await killAfter(path, Math.max(0, acknowledged), 14 + round * 2, () => {}, 'thin');
    const store = openSqliteReadings(path, { flushAt: 200, flushRows: 30, downsampleRows: 25 });
    const watermarkMs = await store.watermark();
    expect(watermarkMs).toBeGreaterThanOrEqual(downsampledToMs);
    downsampledToMs = watermarkMs;
    const rows = await store.rows(someSeries, 0, beginMs + 400 * dayMs, 1_000_000);
    const counted = rows.reduce((sum, { standsFor }) => sum + (standsFor?.count ?? 1), 0);
    const keptBatches = counted / readingsPerBatch;
    expect([acknowledged + 1, acknowledged + 2]).toContain(keptBatches);
    const sent = Array.from({ length: keptBatches }, (_, n) => numberedBatch(n)).flat();
    const again = await store.append(sent);
    expect(again.duplicateCount + again.beforeWatermarkCount).toBe(sent.length);
    await downsampleWhole(store, Math.max(0, downsampledBeforeMs(keptBatches - 1)));
    await store.close();
    const { rollups, fromRaw, waiting } = rollupsAndRaw(path);
    expect(waiting).toBe(0);
    const found = rollups.map((row) => [[row.tier, row.series_id, row.at_ms].join(), row.n] as const);
    expect(new Map(found)).toEqual(countsOf(sent));
    const rawFromMs = fromRaw[0]?.at_ms ?? 0;
    expect(rawFromMs).toBeGreaterThanOrEqual(downsampledToMs);
    expect(rollups.filter((row) => row.at_ms >= rawFromMs)).toEqual(fromRaw);
  }
  expect(downsampledToMs).toBeGreaterThan(beginMs);
});
