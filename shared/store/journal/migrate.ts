/** Brings a journal forward to the tables of today. */
import { type Kysely, type Migration, Migrator, sql } from 'kysely';
import { StoreError } from '../../errors.ts';
import * as journal0001 from '../migrations/0001-journal.ts';
import * as journal0002 from '../migrations/0002-entries-and-lineage.ts';
import * as journal0003 from '../migrations/0003-people.ts';
import * as journal0004 from '../migrations/0004-probe-keys.ts';
import * as journal0005 from '../migrations/0005-delivery.ts';
import * as journal0006 from '../migrations/0006-leases-and-views.ts';
import * as journal0007 from '../migrations/0007-what-ends-together.ts';
import * as journal0008 from '../migrations/0008-mail-addresses.ts';
import * as journal0009 from '../migrations/0009-language.ts';
import * as journal0010 from '../migrations/0010-air-ahead.ts';
import * as journal0011 from '../migrations/0011-plain-names.ts';
import * as journal0012 from '../migrations/0012-fanned-out.ts';
import * as journal0013 from '../migrations/0013-verdicts.ts';
import * as journal0014 from '../migrations/0014-mapped-values.ts';
import { storeError } from '../store-error.ts';

/** By number; the names are kept in the database, so they never change. */
export const migrations: Readonly<Record<string, Migration>> = {
  '0001-journal': journal0001,
  '0002-entries-and-lineage': journal0002,
  '0003-people': journal0003,
  '0004-probe-keys': journal0004,
  '0005-delivery': journal0005,
  '0006-leases-and-views': journal0006,
  '0007-what-ends-together': journal0007,
  '0008-mail-addresses': journal0008,
  '0009-language': journal0009,
  '0010-air-ahead': journal0010,
  '0011-plain-names': journal0011,
  '0012-fanned-out': journal0012,
  '0013-verdicts': journal0013,
  '0014-mapped-values': journal0014,
};

/**
 * @param to name of the migration to stop after; the newest when absent.
 * @param file Where it lies, for a journal in a file.
 */
export async function migrateJournal<Tables>(db: Kysely<Tables>, to?: string, file?: string): Promise<void> {
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => migrations },
    migrationTableName: 'journal_migration',
    migrationLockTableName: 'journal_migration_lock',
  });
  const { error } = to === undefined ? await migrator.migrateToLatest() : await migrator.migrateTo(to);
  if (error === undefined) return;
  // Kysely's word for a migration that the database has seen and this program has not.
  if (
    error instanceof Error &&
    /previously executed migration /.test(error.message) &&
    / is missing/.test(error.message)
  ) {
    const by = await writtenBy(db);
    throw new StoreError(
      `Cannot open the journal as its tables must be of this program or earlier: a later one${by ? ` (${by})` : ''} wrote them; install that version again, or put back a backup of before its update`,
      { cause: error },
    );
  }
  throw storeError('bring the journal to the tables of today', error, file);
}

/** Under this setting stands the version of the program that last opened the journal. */
export const versionSetting = 'program.version';

async function writtenBy<Tables>(db: Kysely<Tables>): Promise<string | undefined> {
  try {
    const { rows } = await sql<{ value: string }>`SELECT value FROM setting WHERE key = ${versionSetting}`.execute(db);
    return rows[0]?.value;
  } catch {
    return undefined; // a later program may keep it elsewhere
  }
}
