/** A notice that became messages is called fanned out; what is spread is a pile. */
import type { Kysely } from 'kysely';

interface Before {
  notice: { state: string };
}

export async function up(db: Kysely<Before>): Promise<void> {
  await db.updateTable('notice').set({ state: 'fanned-out' }).where('state', '=', 'spread').execute();
}
