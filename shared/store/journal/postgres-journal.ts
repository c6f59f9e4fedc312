/**
 * Opens the journal in PostgreSQL, so that several processes share it. It never waits for an answer without end: a
 * database that is away is a StoreError, and it goes on once it is back.
 */
import { Kysely, PostgresDialect, sql } from 'kysely';
import { Client, Pool, type PoolConfig, types } from 'pg';
import type { Journal } from '../journal.ts';
import { storeError } from '../store-error.ts';
import { journalOver } from './journal-kysely.ts';
import { migrateJournal } from './migrate.ts';
import { majorOf, reachWithinMs, withoutSecrets } from './postgres-address.ts';
import { journalLockClass, journalLocks, postgresEngine } from './postgres-engine.ts';
import type { JournalTables } from './tables.ts';

/** A process asks a few things at a time, and a server of default settings takes 100 connections in all. */
const mostConnections = 8;
/** The server ends a statement after the first, we stop waiting for a server that is frozen after the second. */
const statementMs = 10_000;
const answerWithinMs = 12_000;

/** Times and counts are bigint there; ours stay below 2^53 for the next 285,000 years. */
const int8 = 20;
const parsers: NonNullable<PoolConfig['types']> = {
  getTypeParser: (oid, format) => (oid === int8 ? Number : types.getTypeParser(oid, format as 'text')),
};

/**
 * Opens the journal at `url`, making or migrating it as needed.
 * @throws {StoreError} one line: it cannot be reached, is too old, or a later version of this program wrote it.
 */
export async function openPostgresJournal(url: string): Promise<Journal> {
  const shown = withoutSecrets(url);
  try {
    await prepare(url);
  } catch (cause) {
    throw storeError(`open the journal at ${shown}`, cause);
  }
  const pool = journalPool(url);
  return journalOver(new Kysely<JournalTables>({ dialect: new PostgresDialect({ pool }) }), postgresEngine(url));
}

export function journalPool(url: string): Pool {
  return surviving(
    new Pool({
      connectionString: url,
      application_name: 'branhearth',
      max: mostConnections,
      connectionTimeoutMillis: reachWithinMs,
      idleTimeoutMillis: 60_000,
      keepAlive: true,
      statement_timeout: statementMs,
      lock_timeout: statementMs,
      idle_in_transaction_session_timeout: statementMs,
      query_timeout: answerWithinMs,
      types: parsers,
    }),
  );
}

/**
 * A connection that breaks while nothing is asked of it is replaced when it is needed; unheard, its error would end the
 * process. The pool hears those that are idle, not those that are in the middle of a transaction.
 */
function surviving(pool: Pool): Pool {
  pool.on('error', () => {});
  pool.on('connect', (client) => client.on('error', () => {}));
  return pool;
}

/** One process at a time brings the tables to today's; a lock of the session ends with it, however it ends. */
async function prepare(url: string): Promise<void> {
  const guard = new Client({ connectionString: url, connectionTimeoutMillis: reachWithinMs });
  guard.on('error', () => {});
  await guard.connect();
  try {
    await majorOf(guard, url);
    await guard.query('SELECT pg_advisory_lock($1, $2)', [journalLockClass, journalLocks.migrate]);
    const pool = surviving(
      new Pool({ connectionString: url, max: 1, connectionTimeoutMillis: reachWithinMs, types: parsers }),
    );
    const db = new Kysely<unknown>({ dialect: new PostgresDialect({ pool }) });
    try {
      await migrateJournal(db);
      await sortByCodePoint(db);
      await tellOfChanges(db);
    } finally {
      await db.destroy();
    }
  } finally {
    await guard.end().catch(() => undefined);
  }
}

/** Lists are the same whatever language the database was made for. */
async function sortByCodePoint(db: Kysely<unknown>): Promise<void> {
  const { rows } = await sql<{ table_name: string; column_name: string }>`
    SELECT c.table_name, c.column_name FROM information_schema.columns c
    JOIN information_schema.tables t USING (table_schema, table_name)
    WHERE c.table_schema = current_schema() AND t.table_type = 'BASE TABLE' AND c.data_type = 'text'
      AND c.collation_name IS NULL`.execute(db);
  await db.transaction().execute(async (transaction) => {
    for (const { table_name: table, column_name: column } of rows) {
      await sql`ALTER TABLE ${sql.table(table)} ALTER COLUMN ${sql.ref(column)} TYPE text COLLATE "C"`.execute(
        transaction,
      );
    }
  });
}

/** Tables that every process holds in memory in part: whoever changes them, all hear of it after the commit. */
const notifyingTables = ['site', 'pile', 'batch', 'claim', 'mapping', 'probe', 'air_ahead'];

async function tellOfChanges(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE OR REPLACE FUNCTION branhearth_tell() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN PERFORM pg_notify('branhearth', 'changed ' || TG_TABLE_NAME); RETURN NULL; END $$`.execute(db);
  for (const table of notifyingTables) {
    await sql`CREATE OR REPLACE TRIGGER branhearth_told AFTER INSERT OR UPDATE OR DELETE ON ${sql.table(table)}
      FOR EACH STATEMENT EXECUTE FUNCTION branhearth_tell()`.execute(db);
  }
}
