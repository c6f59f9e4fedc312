/** How much a data folder holds, counted through the stores themselves. */
import { existsSync } from 'node:fs';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { databaseNames, type Manifest } from './manifest.ts';

/** Counted in a copy, so that what is counted stays as it is, byte for byte. */
export async function countOf(folder: string): Promise<Manifest['counts']> {
  const copy = await mkdtemp(join(tmpdir(), 'branhearth-count-'));
  try {
    const held = databaseNames.filter((name) => existsSync(join(folder, name)));
    for (const name of held) await cp(join(folder, name), join(copy, name));
    return {
      ...(held.includes('readings.db') && (await countReadings(join(copy, 'readings.db')))),
      ...(held.includes('journal.db') && (await countJournal(join(copy, 'journal.db')))),
    };
  } finally {
    await rm(copy, { recursive: true, force: true });
  }
}

async function countReadings(path: string) {
  const store = openSqliteReadings(path);
  const { rows } = await store.size();
  await store.close();
  return { readings: rows };
}

async function countJournal(path: string) {
  const journal = await openSqliteJournal(path);
  const counts = {
    piles: (await journal.piles.list()).length,
    batches: (await journal.batches.list()).length,
    people: (await journal.people.list()).length,
    keys: (await journal.probeKeys.list()).length,
  };
  await journal.close();
  return counts;
}
