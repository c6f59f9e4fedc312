/** A journal that is only inspected, wherever the configuration says that it is. */
import { join } from 'node:path';
import { inspectSqlite } from '../journal/inspect-sqlite.ts';
import type { InspectedJournal } from '../journal/inspected-journal.ts';
import { migrations } from '../journal/migrate.ts';

/** @returns undefined where there is none yet. @throws {StoreError} one line that says why it cannot be read. */
export async function inspectJournal(url: string | undefined, dataDir: string): Promise<InspectedJournal | undefined> {
  if (url === undefined) return inspectSqlite(join(dataDir, 'journal.db'));
  const { inspectPostgres } = await import('../journal/inspect-postgres.ts'); // most have none: its driver is not loaded for them
  return inspectPostgres(url);
}

/** Names of migrations that have run there and are none of this program's, and how many of this program's have not. */
export async function layoutOf(look: InspectedJournal): Promise<{ later: string[]; missing: number }> {
  const done = (await look.ask('SELECT name FROM journal_migration')).map(({ name }) => String(name));
  const known = Object.keys(migrations);
  return {
    later: done.filter((name) => !known.includes(name)),
    missing: known.filter((name) => !done.includes(name)).length,
  };
}
