/**
 * What is compared comes from rollups alone: with every raw row of the past gone, each figure and each curve stays the same.
 */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Clock } from '../../shared/clock.ts';
import Database from '../../shared/store/sqlite-driver.ts';
import { writePast } from '../../simulator/demo/past-seasons/write-past.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { demoStartMs } from '../helpers/past-server.ts';

const clock: Clock = { nowMs: () => demoStartMs, speed: 1 };

async function answers(dataDir: string) {
  const { app, close } = await openTestInstallation(dataDir, {}, clock);
  try {
    return {
      table: (await app.inject({ url: '/api/compare' })).json(),
      curves: (await app.inject({ url: '/api/compare/curves' })).json(),
    };
  } finally {
    await close();
  }
}

test('24 batches compared before and after their raw rows went: not a figure differs', async () => {
  const { dataDir, remove } = await makeDataDir();
  try {
    await writePast({ dataDir, seed: 3, demoStartMs });
    const before = await answers(dataDir);
    expect(before.table.batches).toHaveLength(24);
    const database = new Database(join(dataDir, 'readings.db'));
    const gone = database.prepare('DELETE FROM reading').run().changes;
    database.close();
    expect(gone).toBeGreaterThan(100_000);
    expect(await answers(dataDir)).toEqual(before);
  } finally {
    await remove();
  }
});
