/**
 * Who made a link by which somebody comes in, and by which sign-in or token a device was signed up to be told: so that each
 * ends with what it came from.
 */
import { type Kysely, sql } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  // A person's id, 'here' or 'api-token'; null for what the program itself makes at its start.
  await db.schema.alterTable('link').addColumn('made_by_id', 'text').execute();
  // Only the maker's name was kept. A link of somebody who is no owner now ends: they can make another.
  await sql`UPDATE link SET made_by_id = (SELECT person.id FROM person WHERE person.name = link.made_by
    AND person.removed_at_ms IS NULL AND person.role = 'owner') WHERE kind <> 'setup'`.execute(db);
  await sql`UPDATE link SET made_by_id = 'here' WHERE kind <> 'setup' AND made_by_id IS NULL
    AND made_by = 'This machine'`.execute(db);
  await sql`UPDATE link SET made_by_id = 'api-token' WHERE kind <> 'setup' AND made_by_id IS NULL
    AND made_by = 'API token'`.execute(db);
  await sql`DELETE FROM link WHERE kind <> 'setup' AND made_by_id IS NULL`.execute(db);

  // The id of a session or of a token; null for what was signed up before this was kept, or by nobody by name.
  await db.schema.alterTable('push_device').addColumn('made_with', 'text').execute();
  await sql`DELETE FROM push_device WHERE person_id IN (SELECT id FROM person WHERE removed_at_ms IS NOT NULL)`.execute(
    db,
  );
}
