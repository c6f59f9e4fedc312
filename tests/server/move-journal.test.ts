import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { moveJournal } from '../../server/move/move-journal.ts';
import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { hasPostgres, type Postgres, startPostgres } from '../helpers/postgres.ts';
import {
  branBatch,
  branLot,
  branPile,
  laidFrom,
  oakLot,
  raised,
  smelt,
  tooWarm,
  yard,
} from '../shared/store/journal-sample.ts';

describe.skipIf(!hasPostgres)('moveJournal()', () => {
  let postgres: Postgres;
  let folder: Awaited<ReturnType<typeof makeDataDir>>;
  beforeAll(async () => {
    [postgres, folder] = await Promise.all([startPostgres({ fsync: 'off' }), makeDataDir()]);
    const journal = await openSqliteJournal(join(folder.dataDir, 'journal.db'));
    await journal.sites.add(yard);
    await journal.piles.add(branPile, branBatch);
    await journal.lineage.keep({ lots: [oakLot, branLot], flows: [laidFrom] }, () => {});
    await journal.entries.add({ ...smelt, photoIds: [] });
    await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: null });
    await journal.close();
    const digest = 'ab'.repeat(32);
    await mkdir(join(folder.dataDir, 'photos', 'ab'), { recursive: true });
    await writeFile(join(folder.dataDir, 'photos', 'ab', `${digest}.jpg`), 'whole');
    await writeFile(join(folder.dataDir, 'photos', 'ab', `${digest}-small.jpg`), 'small');
  });
  afterAll(async () => {
    await postgres?.remove();
    await folder?.remove();
  });

  test('brings everything over, photos too, and tells how much', async () => {
    const url = await postgres.database();
    const moved = await moveJournal(folder.dataDir, url);
    expect(moved.map(({ table, here }) => [table, here])).toEqual(moved.map(({ table, there }) => [table, there]));
    expect(moved).toContainEqual({ table: 'pile', there: 1, here: 1 });
    expect(moved).toContainEqual({ table: 'pictures of photos', there: 2, here: 2 });
    const journal = await openPostgresJournal(url);
    expect(await journal.sites.list()).toEqual([yard]);
    expect(await journal.batches.list()).toEqual([branBatch]);
    expect(await journal.lots.list()).toEqual([oakLot, branLot]);
    expect(await journal.lineage.flows()).toEqual([laidFrom]);
    expect(await journal.entries.versions(smelt.id)).toEqual([{ ...smelt, photoIds: [] }]);
    expect(await journal.alarms.open()).toEqual([tooWarm]);
    expect(Buffer.from((await journal.pictures.read('ab'.repeat(32), 'small')) ?? []).toString()).toBe('small');
    await journal.close();
  });

  test('refuses a journal that holds anything, and leaves it as it was', async () => {
    const url = await postgres.database();
    const journal = await openPostgresJournal(url);
    await journal.settings.set('units', 'F');
    await expect(moveJournal(folder.dataDir, url)).rejects.toThrow(/must be empty: its table setting has 1 rows/);
    expect(await journal.sites.list()).toEqual([]);
    await journal.close();
  });
});
