/**
 * shared/store/open-journal.ts: opens the journal where the configuration says: a file in the data folder, or a server.
 */
import { join } from 'node:path';
import type { Journal } from './journal.ts';
import { openPostgresJournal } from './postgres-journal.ts';
import { openSqliteJournal } from './sqlite-journal.ts';

/** @throws {StoreError} one line that says why it cannot be opened. */
export function openJournal(url: string | undefined, dataDir: string): Promise<Journal> {
  return url === undefined ? openSqliteJournal(join(dataDir, 'journal.db')) : openPostgresJournal(url);
}
