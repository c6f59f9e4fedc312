/** Opens the embedded journal, one SQLite file and nothing to install. */

import { Kysely } from 'kysely';
import { holdFile } from '../hold-file.ts';
import type { Journal } from '../journal.ts';
import Database from '../sqlite-driver.ts';
import { storeError } from '../store-error.ts';
import { sqliteEngine } from './journal-engine.ts';
import { journalOver } from './journal-kysely.ts';
import { migrateJournal } from './migrate.ts';
import { JournalSqliteDialect } from './sqlite-dialect.ts';
import type { JournalTables } from './tables.ts';

/**
 * Opens the journal at `path`, making or migrating it as needed.
 * @param path a file in an existing folder, or ":memory:".
 * @throws {StoreError} one line: the file is held by another process, damaged, or from a later version.
 */
export async function openSqliteJournal(path: string): Promise<Journal> {
  const hold = path === ':memory:' ? undefined : holdFile(path);
  let sqlite: Database.Database | undefined;
  try {
    sqlite = new Database(path, { timeout: 250 });
    const db = new Kysely<JournalTables>({ dialect: new JournalSqliteDialect(sqlite) });
    await migrateJournal(db, undefined, path);
    const journal = journalOver(db, sqliteEngine, path);
    return { ...journal, close: () => journal.close().finally(() => hold?.release()) };
  } catch (cause) {
    sqlite?.close();
    hold?.release();
    throw storeError(`open the journal in ${path}`, cause, path);
  }
}
