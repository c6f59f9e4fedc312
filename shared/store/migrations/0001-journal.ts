/**
 * The journal's first tables.
 *
 * Released migrations are never edited; a change is the next number. Everything here runs on SQLite and PostgreSQL: ids
 * and JSON are text, times are bigint epoch ms, yes or no is 1 or 0.
 */
import { type Kysely, sql } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('site')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('time_zone', 'text')
    .addColumn('latitude', 'double precision')
    .addColumn('longitude', 'double precision')
    .execute();

  await db.schema
    .createTable('pile')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('site_id', 'text', (column) => column.notNull().references('site.id'))
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('created_at_ms', 'bigint', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('batch')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('pile_id', 'text', (column) => column.notNull().references('pile.id'))
    .addColumn('stage', 'text', (column) => column.notNull())
    .addColumn('started_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('ended_at_ms', 'bigint')
    .addColumn('outcome', 'text')
    .addColumn('recipe', 'text', (column) => column.notNull())
    .addColumn('limits', 'text', (column) => column.notNull())
    .execute();
  await db.schema.createIndex('batch_of_pile').on('batch').columns(['pile_id', 'started_at_ms']).execute();
  await sql`CREATE UNIQUE INDEX one_batch_at_a_time ON batch (pile_id) WHERE ended_at_ms IS NULL`.execute(db);

  await db.schema
    .createTable('probe')
    .addColumn('site', 'text', (column) => column.notNull())
    .addColumn('probe', 'text', (column) => column.notNull())
    .addColumn('online', 'integer')
    .addColumn('online_at_ms', 'bigint')
    .addColumn('temperature_offset_c', 'double precision', (column) => column.notNull().defaultTo(0))
    .addPrimaryKeyConstraint('probe_key', ['site', 'probe'])
    .execute();

  await db.schema
    .createTable('claim')
    .addColumn('site', 'text', (column) => column.notNull())
    .addColumn('probe', 'text', (column) => column.notNull())
    .addColumn('pile_id', 'text', (column) => column.notNull().references('pile.id'))
    .addColumn('position', 'text', (column) => column.notNull())
    .addColumn('from_ms', 'bigint', (column) => column.notNull())
    .addColumn('to_ms', 'bigint')
    .addPrimaryKeyConstraint('claim_key', ['site', 'probe', 'from_ms'])
    .execute();
  await sql`CREATE UNIQUE INDEX one_claim_per_probe ON claim (site, probe) WHERE to_ms IS NULL`.execute(db);
  await sql`CREATE UNIQUE INDEX one_probe_per_position ON claim (pile_id, position) WHERE to_ms IS NULL`.execute(db);

  await db.schema
    .createTable('act')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('pile_id', 'text', (column) => column.notNull().references('pile.id'))
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('amount_l', 'double precision')
    .addColumn('depth_m', 'double precision')
    .addColumn('note', 'text')
    .execute();
  await db.schema.createIndex('act_of_pile').on('act').columns(['pile_id', 'at_ms']).execute();

  await db.schema
    .createTable('alarm')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('pile_id', 'text', (column) => column.notNull().references('pile.id'))
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('position', 'text')
    .addColumn('severity', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('raised_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('changed_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('closed_at_ms', 'bigint')
    .addColumn('machine', 'text', (column) => column.notNull())
    .addColumn('words', 'text', (column) => column.notNull())
    .execute();
  await db.schema.createIndex('alarm_of_pile').on('alarm').columns(['pile_id', 'raised_at_ms']).execute();
  // In an index NULL differs from NULL, so an alarm of the whole pile stands under ''.
  await sql`CREATE UNIQUE INDEX one_open_alarm ON alarm (pile_id, kind, coalesce(position, ''))
    WHERE closed_at_ms IS NULL`.execute(db);

  await db.schema
    .createTable('alarm_step')
    .addColumn('alarm_id', 'text', (column) => column.notNull().references('alarm.id'))
    .addColumn('place', 'integer', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('from_state', 'text', (column) => column.notNull())
    .addColumn('to_state', 'text', (column) => column.notNull())
    .addColumn('arrow', 'text', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('note', 'text')
    .addPrimaryKeyConstraint('alarm_step_key', ['alarm_id', 'place'])
    .execute();

  await db.schema
    .createTable('watch')
    .addColumn('pile_id', 'text', (column) => column.primaryKey().references('pile.id'))
    .addColumn('batch_id', 'text', (column) => column.notNull().references('batch.id'))
    .addColumn('through_ms', 'bigint', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('mapping')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('place', 'integer', (column) => column.notNull())
    .addColumn('filter', 'text', (column) => column.notNull())
    .addColumn('pointer', 'text', (column) => column.notNull())
    .addColumn('quantity', 'text', (column) => column.notNull())
    .addColumn('unit', 'text', (column) => column.notNull())
    .addColumn('scale', 'double precision', (column) => column.notNull())
    .addColumn('site', 'text', (column) => column.notNull())
    .addColumn('probe', 'text', (column) => column.notNull())
    .addColumn('time_pointer', 'text')
    .execute();

  await db.schema
    .createTable('setting')
    .addColumn('key', 'text', (column) => column.primaryKey())
    .addColumn('value', 'text', (column) => column.notNull())
    .execute();
}
