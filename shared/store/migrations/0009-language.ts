/** The language that a person chose; null where they leave it to their browser. */
import type { Kysely } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema.alterTable('person').addColumn('language', 'text').execute();
}
