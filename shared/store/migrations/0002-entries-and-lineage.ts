/**
 * Entries with every version of them, photos, lots, flows and uses.
 *
 * What was an act becomes the first version of an entry; when it reached us was not kept then, so its own time stands
 * for that.
 */
import type { Kysely } from 'kysely';
import { sql } from 'kysely';

interface Before {
  act: {
    id: string;
    pile_id: string;
    kind: string;
    at_ms: number;
    amount_l: number | null;
    depth_m: number | null;
    note: string | null;
  };
  entry: Record<string, string | number | null>;
}

export async function up(unknown: Kysely<unknown>): Promise<void> {
  const db = unknown as Kysely<Before>;
  await db.schema
    .createTable('entry')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('entry_id', 'text', (column) => column.notNull())
    .addColumn('version', 'integer', (column) => column.notNull())
    .addColumn('newest', 'integer', (column) => column.notNull())
    .addColumn('pile_id', 'text', (column) => column.notNull().references('pile.id'))
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('recorded_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('note', 'text')
    .addColumn('photo_ids', 'text', (column) => column.notNull())
    .addColumn('what', 'text', (column) => column.notNull())
    .addColumn('reason', 'text')
    .addColumn('withdrawn', 'integer', (column) => column.notNull())
    .execute();
  await sql`CREATE UNIQUE INDEX entry_version ON entry (entry_id, version)`.execute(db);
  await sql`CREATE UNIQUE INDEX newest_version ON entry (entry_id) WHERE newest = 1`.execute(db);
  await db.schema.createIndex('entry_of_pile').on('entry').columns(['pile_id', 'at_ms']).execute();
  await moveActs(db);
  await db.schema.dropTable('act').execute();

  await db.schema
    .createTable('photo')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('digest', 'text', (column) => column.notNull())
    .addColumn('width', 'integer', (column) => column.notNull())
    .addColumn('height', 'integer', (column) => column.notNull())
    .addColumn('bytes', 'integer', (column) => column.notNull())
    .addColumn('kept_at_ms', 'bigint', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('batch_story')
    .addColumn('batch_id', 'text', (column) => column.primaryKey().references('batch.id'))
    .addColumn('name', 'text')
    .addColumn('ending', 'text')
    .addColumn('reason', 'text')
    .execute();

  await db.schema
    .createTable('lot')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('created_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('storage', 'text')
    .addColumn('mass_kg', 'double precision')
    .addColumn('volume_l', 'double precision')
    .addColumn('note', 'text')
    .addColumn('used_up', 'integer', (column) => column.notNull())
    .addColumn('facts', 'text', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('use_of_batch')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('batch_id', 'text', (column) => column.notNull().references('batch.id'))
    .addColumn('target', 'text', (column) => column.notNull())
    .addColumn('place', 'text', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('mass_kg', 'double precision')
    .addColumn('volume_l', 'double precision')
    .addColumn('area_m2', 'double precision')
    .addColumn('by', 'text')
    .addColumn('note', 'text')
    .execute();

  await db.schema
    .createTable('flow')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('from_kind', 'text', (column) => column.notNull())
    .addColumn('from_id', 'text', (column) => column.notNull())
    .addColumn('to_kind', 'text', (column) => column.notNull())
    .addColumn('to_id', 'text', (column) => column.notNull())
    .addColumn('way', 'text', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('mass_kg', 'double precision')
    .addColumn('volume_l', 'double precision')
    .addColumn('withdrawn_at_ms', 'bigint')
    .execute();
  await db.schema.createIndex('flow_from').on('flow').columns(['from_kind', 'from_id']).execute();
  await db.schema.createIndex('flow_to').on('flow').columns(['to_kind', 'to_id']).execute();
}

async function moveActs(db: Kysely<Before>): Promise<void> {
  for (const act of await db.selectFrom('act').selectAll().execute()) {
    const what = {
      kind: act.kind,
      ...(act.amount_l !== null && { amountL: act.amount_l }),
      ...(act.depth_m !== null && { depthM: act.depth_m }),
    };
    await db
      .insertInto('entry')
      .values({
        id: act.id,
        entry_id: act.id,
        version: 1,
        newest: 1,
        pile_id: act.pile_id,
        kind: act.kind,
        at_ms: act.at_ms,
        recorded_at_ms: act.at_ms,
        by: null,
        note: act.note,
        photo_ids: '[]',
        what: JSON.stringify(what),
        reason: null,
        withdrawn: 0,
      })
      .execute();
  }
}
