/**
 * The keys that probes and programs come in with at the broker's door.
 *
 * Not "probe_key": PostgreSQL names indexes and tables alike, and 0001 gave that name to an index.
 */
import type { Kysely } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('broker_key')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('site', 'text')
    .addColumn('probe', 'text')
    .addColumn('foreign_filters', 'text', (column) => column.notNull())
    .addColumn('hears', 'text', (column) => column.notNull())
    .addColumn('secret_sha256', 'text', (column) => column.notNull())
    .addColumn('mosquitto_hash', 'text', (column) => column.notNull())
    .addColumn('made_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('made_by', 'text')
    .addColumn('revoked_at_ms', 'bigint')
    .addColumn('revoked_by', 'text')
    .execute();
}
