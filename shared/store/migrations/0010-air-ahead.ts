/** The air foretold at each site: the newest issue, with the hours of earlier ones that have gone by. */
import type { Kysely } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('air_ahead')
    .addColumn('site_id', 'text', (column) => column.primaryKey().references('site.id'))
    .addColumn('source', 'text', (column) => column.notNull())
    .addColumn('issued_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('received_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('points', 'text', (column) => column.notNull())
    .execute();
}
