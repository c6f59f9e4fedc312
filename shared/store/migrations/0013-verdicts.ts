/** Verdicts of batches are entries that name their batch; they are looked up by it, and listed by their kind. */
import type { Kysely } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .alterTable('entry')
    .addColumn('batch_id', 'text', (column) => column.references('batch.id'))
    .execute();
  await db.schema.createIndex('entry_of_batch').on('entry').columns(['batch_id']).execute();
  await db.schema.createIndex('entry_of_kind').on('entry').columns(['kind', 'at_ms']).execute();
}
