/**
 * What several processes share: who watches which site, how the watcher last saw each pile, what it is asked to do, and
 * the pictures of photos.
 */
import { type Kysely, sql } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('picture')
    .addColumn('digest', 'text', (column) => column.notNull())
    .addColumn('size', 'text', (column) => column.notNull())
    .addColumn('bytes', 'bytea', (column) => column.notNull())
    .addPrimaryKeyConstraint('picture_key', ['digest', 'size'])
    .execute();

  await db.schema
    .createTable('worker')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('until_ms', 'bigint', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('lease')
    .addColumn('site', 'text', (column) => column.primaryKey())
    .addColumn('holder', 'text')
    .addColumn('fence', 'bigint', (column) => column.notNull())
    .addColumn('until_ms', 'bigint', (column) => column.notNull())
    .addColumn('heard', 'integer', (column) => column.notNull())
    .execute();

  // No foreign keys: a pile may go while its watcher is still writing about it.
  await db.schema
    .createTable('pile_view')
    .addColumn('pile_id', 'text', (column) => column.primaryKey())
    .addColumn('changed_ms', 'bigint', (column) => column.notNull())
    .addColumn('summary', 'text', (column) => column.notNull())
    .addColumn('told', 'text', (column) => column.notNull())
    .addColumn('course', 'text', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('pile_ask')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('place', 'bigint', (column) => column.notNull())
    .addColumn('site', 'text', (column) => column.notNull())
    .addColumn('pile_id', 'text', (column) => column.notNull())
    .addColumn('ask', 'text', (column) => column.notNull())
    .addColumn('asked_ms', 'bigint', (column) => column.notNull())
    .addColumn('done_ms', 'bigint')
    .addColumn('answer', 'text')
    .execute();
  await sql`CREATE INDEX ask_to_do ON pile_ask (site, place) WHERE done_ms IS NULL`.execute(db);
}
