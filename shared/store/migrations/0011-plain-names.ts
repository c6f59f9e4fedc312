/** Tables and columns are called as the records they are read into; the recipient that stands for the server is `server`. */
import { type Kysely, sql } from 'kysely';

interface Before {
  notice: { about: string; person_id: string | null };
  message: { person_id: string };
  telling: { person_id: string };
  push_device: { person_id: string };
  mail_address: { person_id: string };
  told_link: { person_id: string };
  hand_on: { site_id: string; person_ids: string };
}

/** What stood for the server before, as a recipient and as what a notice is about. */
const earlier = 'house';
const server = 'server';

export async function up(db: Kysely<Before>): Promise<void> {
  await db.updateTable('notice').set({ about: server }).where('about', '=', earlier).execute();
  for (const table of ['notice', 'message', 'telling', 'push_device', 'mail_address', 'told_link'] as const)
    await db.updateTable(table).set({ person_id: server }).where('person_id', '=', earlier).execute();
  for (const { site_id, person_ids } of await db.selectFrom('hand_on').selectAll().execute()) {
    const renamed = withServer(person_ids);
    if (renamed !== person_ids)
      await db.updateTable('hand_on').set({ person_ids: renamed }).where('site_id', '=', site_id).execute();
  }

  for (const [table, column, name] of [
    ['telling', 'wishes', 'preferences'],
    ['told_link', 'way', 'channel'],
    ['message', 'way', 'channel'],
    ['turn', 'place', 'step'],
    ['alarm_step', 'place', 'number'],
    ['mapping', 'place', 'number'],
    ['pile_ask', 'place', 'number'],
    ['pile_ask', 'ask', 'command'],
    ['pile_view', 'told', 'assessment'],
    ['pile_view', 'course', 'band'],
  ] as const)
    await db.schema.alterTable(table).renameColumn(column, name).execute();
  for (const [table, name] of [
    ['telling', 'notification_preferences'],
    ['told_link', 'notification_link'],
    ['hand_on', 'escalation'],
    ['turn', 'escalation_step'],
    ['pile_ask', 'pile_command'],
  ] as const)
    await db.schema.alterTable(table).renameTo(name).execute();
  await db.schema.dropIndex('ask_to_do').execute();
  await sql`CREATE INDEX command_to_do ON pile_command (site, number) WHERE done_ms IS NULL`.execute(db);
}

/** @returns The text as it was where it cannot be read: a damaged row is named to people later, and mended by them. */
function withServer(personIds: string): string {
  try {
    const ids: unknown = JSON.parse(personIds);
    if (!Array.isArray(ids) || !ids.includes(earlier)) return personIds;
    return JSON.stringify(ids.map((id: unknown) => (id === earlier ? server : id)));
  } catch {
    return personIds;
  }
}
