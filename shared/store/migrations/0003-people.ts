/** People, their sessions, links and tokens, attempts to sign in, and the audit trail. */
import { type Kysely, SqliteAdapter, sql } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('person')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('name_key', 'text', (column) => column.notNull())
    .addColumn('role', 'text', (column) => column.notNull())
    .addColumn('password_hash', 'text', (column) => column.notNull())
    .addColumn('created_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('removed_at_ms', 'bigint')
    .execute();
  await sql`CREATE UNIQUE INDEX person_name ON person (name_key) WHERE removed_at_ms IS NULL`.execute(db);

  await db.schema
    .createTable('session')
    .addColumn('digest', 'text', (column) => column.primaryKey())
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('person_id', 'text', (column) => column.notNull().references('person.id'))
    .addColumn('made_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('seen_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('ends_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('address', 'text', (column) => column.notNull())
    .addColumn('agent', 'text', (column) => column.notNull())
    .execute();
  await db.schema.createIndex('session_of_person').on('session').column('person_id').execute();

  await db.schema
    .createTable('link')
    .addColumn('digest', 'text', (column) => column.primaryKey())
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('role', 'text', (column) => column.notNull())
    .addColumn('person_id', 'text', (column) => column.references('person.id'))
    .addColumn('made_by', 'text', (column) => column.notNull())
    .addColumn('made_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('ends_at_ms', 'bigint', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('api_token')
    .addColumn('digest', 'text', (column) => column.primaryKey())
    .addColumn('id', 'text', (column) => column.notNull().unique())
    .addColumn('person_id', 'text', (column) => column.notNull().references('person.id'))
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('scope', 'text', (column) => column.notNull())
    .addColumn('made_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('used_at_ms', 'bigint')
    .addColumn('ends_at_ms', 'bigint')
    .execute();
  await db.schema.createIndex('token_of_person').on('api_token').column('person_id').execute();

  await db.schema
    .createTable('attempt')
    .addColumn('key', 'text', (column) => column.primaryKey())
    .addColumn('failures', 'integer', (column) => column.notNull())
    .addColumn('last_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('open_at_ms', 'bigint', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('audit')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('person_id', 'text')
    .addColumn('person_name', 'text', (column) => column.notNull())
    .addColumn('via', 'text', (column) => column.notNull())
    .addColumn('what', 'text', (column) => column.notNull())
    .addColumn('subject', 'text')
    .addColumn('address', 'text')
    .addColumn('before', 'text')
    .addColumn('after', 'text')
    .execute();
  await appendOnly(db);
}

/** Rows of the trail are added and read, and nothing else, whoever holds the database's own tools included. */
async function appendOnly(db: Kysely<unknown>): Promise<void> {
  if (db.getExecutor().adapter instanceof SqliteAdapter) {
    for (const way of ['UPDATE', 'DELETE'] as const) {
      await sql`${sql.raw(`CREATE TRIGGER audit_no_${way.toLowerCase()} BEFORE ${way} ON audit
        BEGIN SELECT RAISE(ABORT, 'the audit trail is only ever added to'); END`)}`.execute(db);
    }
    return;
  }
  await sql`CREATE FUNCTION audit_stays() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'the audit trail is only ever added to'; END $$`.execute(db);
  await sql`CREATE TRIGGER audit_stays BEFORE UPDATE OR DELETE ON audit
    FOR EACH STATEMENT EXECUTE FUNCTION audit_stays()`.execute(db);
}
