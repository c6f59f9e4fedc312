/**
 * Whether whoever made a link may still let people in: asked again each time it is used, as they may have been demoted or
 * removed since by another process.
 */
import type { JournalTransaction } from './journal-base.ts';
import type { JournalTables } from './tables.ts';

type Reading = Pick<JournalTransaction, 'selectFrom'>;

export function ownersOf(db: Reading): Promise<{ id: string }[]> {
  return db.selectFrom('person').select('id').where('role', '=', 'owner').where('removed_at_ms', 'is', null).execute();
}

/** Only owners invite. This machine acts as one while there is none; whether a token of the environment is set, others know. */
export async function mayStillInvite(
  db: Reading,
  { made_by_id: makerId }: Pick<JournalTables['link'], 'made_by_id'>,
): Promise<boolean> {
  if (makerId === null || makerId === 'api-token') return true;
  const owners = await ownersOf(db);
  return makerId === 'here' ? owners.length === 0 : owners.some(({ id }) => id === makerId);
}
