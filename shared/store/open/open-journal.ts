/** Opens the journal where the configuration says: a file in the data folder, or a server. */
import { join } from 'node:path';
import { openSqliteJournal } from '../journal/sqlite-journal.ts';
import type { Journal } from '../journal.ts';

/** @throws {StoreError} one line that says why it cannot be opened. */
export async function openJournal(url: string | undefined, dataDir: string): Promise<Journal> {
  if (url === undefined) return openSqliteJournal(join(dataDir, 'journal.db'));
  const { openPostgresJournal } = await import('../journal/postgres-journal.ts'); // most servers have none: its driver is not loaded for them
  return openPostgresJournal(url);
}
