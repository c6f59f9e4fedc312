/** Brings a journal forward to the tables of today. */
import { type Kysely, type Migration, Migrator, sql } from 'kysely';
import { StoreError } from '../../errors.ts';
import { storeError } from '../store-error.ts';

/** Loaded when the database has not seen it, which most starts find of none. */
const migration = (load: () => Promise<Pick<Migration, 'up'>>): Migration => ({
  up: async (db) => (await load()).up(db),
});

/** By number; the names are kept in the database, so they never change. */
export const migrations: Readonly<Record<string, Migration>> = {
  '0001-journal': migration(() => import('../migrations/0001-journal.ts')),
  '0002-entries-and-lineage': migration(() => import('../migrations/0002-entries-and-lineage.ts')),
  '0003-people': migration(() => import('../migrations/0003-people.ts')),
  '0004-probe-keys': migration(() => import('../migrations/0004-probe-keys.ts')),
  '0005-delivery': migration(() => import('../migrations/0005-delivery.ts')),
  '0006-leases-and-views': migration(() => import('../migrations/0006-leases-and-views.ts')),
  '0007-what-ends-together': migration(() => import('../migrations/0007-what-ends-together.ts')),
  '0008-mail-addresses': migration(() => import('../migrations/0008-mail-addresses.ts')),
  '0009-language': migration(() => import('../migrations/0009-language.ts')),
  '0010-air-ahead': migration(() => import('../migrations/0010-air-ahead.ts')),
  '0011-plain-names': migration(() => import('../migrations/0011-plain-names.ts')),
  '0012-fanned-out': migration(() => import('../migrations/0012-fanned-out.ts')),
  '0013-verdicts': migration(() => import('../migrations/0013-verdicts.ts')),
  '0014-mapped-values': migration(() => import('../migrations/0014-mapped-values.ts')),
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
