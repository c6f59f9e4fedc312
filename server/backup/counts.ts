/**
 * server/backup/counts.ts: how much a data folder holds, counted through the stores themselves.
 *
 * Takes:  a folder that nobody else writes to. The stores bring it to their newest form on the way.
 */
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSqliteJournal } from '../../shared/store/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/sqlite-readings.ts';
import { databaseNames, type Manifest } from './manifest.ts';

/** Counted in a copy, so that what is counted stays as it is, byte for byte. */
export async function countOf(folder: string): Promise<Manifest['counts']> {
  const copy = await mkdtemp(join(tmpdir(), 'branhearth-count-'));
  try {
    for (const name of databaseNames) await cp(join(folder, name), join(copy, name));
    const readings = openSqliteReadings(join(copy, 'readings.db'));
    const { rows } = await readings.size();
    await readings.close();
    const journal = await openSqliteJournal(join(copy, 'journal.db'));
    const piles = (await journal.piles.list()).length;
    const batches = (await journal.batches.list()).length;
    await journal.close();
    return { readings: rows, piles, batches };
  } finally {
    await rm(copy, { recursive: true, force: true });
  }
}
