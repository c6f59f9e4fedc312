/**
 * What a person holds that opens the pages or tells them something: sessions, tokens, devices that are notified, links they
 * made, and links in messages by which they acknowledge. What was signed up by something ends with it.
 */
import type { SessionRecord } from '../people-journal.ts';
import type { JournalTransaction } from './journal-base.ts';

/** @param keepDigest Of the session that goes on, with the devices it signed up. */
export async function endAllHeld(
  transaction: JournalTransaction,
  personId: string,
  keepDigest?: string,
): Promise<void> {
  await endAllSessions(transaction, personId, keepDigest);
  await endTokens(transaction, personId);
  await transaction.deleteFrom('link').where('made_by_id', '=', personId).execute();
  await transaction.deleteFrom('notification_link').where('person_id', '=', personId).execute();
}

/** Devices of which it is not known by what they were signed up end too: one of them may be the stolen one. */
export async function endAllSessions(
  transaction: JournalTransaction,
  personId: string,
  keepDigest?: string,
): Promise<number> {
  const kept =
    keepDigest === undefined
      ? undefined
      : await transaction
          .selectFrom('session')
          .select('id')
          .where('digest', '=', keepDigest)
          .where('person_id', '=', personId)
          .executeTakeFirst();
  const tokens = await transaction.selectFrom('api_token').select('id').where('person_id', '=', personId).execute();
  const staying = [...tokens, ...(kept ? [kept] : [])].map(({ id }) => id);
  let devices = transaction.deleteFrom('push_device').where('person_id', '=', personId);
  if (staying.length > 0) {
    devices = devices.where((one) => one.or([one('made_with', 'is', null), one('made_with', 'not in', staying)]));
  }
  await devices.execute();
  let sessions = transaction.deleteFrom('session').where('person_id', '=', personId);
  if (kept) sessions = sessions.where('id', '!=', kept.id);
  return Number((await sessions.executeTakeFirstOrThrow()).numDeletedRows);
}

export async function endSessions(
  transaction: JournalTransaction,
  which: { digest: string } | { personId: string; id: string },
): Promise<number> {
  let ending = transaction.deleteFrom('session').returning('id');
  if ('digest' in which) ending = ending.where('digest', '=', which.digest);
  else ending = ending.where('person_id', '=', which.personId).where('id', '=', which.id);
  const ended = await ending.execute();
  for (const { id } of ended) await transaction.deleteFrom('push_device').where('made_with', '=', id).execute();
  return ended.length;
}

export async function endTokens(transaction: JournalTransaction, personId: string): Promise<number> {
  const ended = await transaction.deleteFrom('api_token').where('person_id', '=', personId).returning('id').execute();
  for (const { id } of ended) await transaction.deleteFrom('push_device').where('made_with', '=', id).execute();
  return ended.length;
}

/** The same browser signs in anew: what it signed up for the same person goes on, what it did for another ends. */
export async function replaceSession(
  transaction: JournalTransaction,
  digest: string,
  next: Pick<SessionRecord, 'id' | 'personId'>,
): Promise<void> {
  const before = await transaction
    .selectFrom('session')
    .select(['id', 'person_id'])
    .where('digest', '=', digest)
    .executeTakeFirst();
  if (!before) return;
  if (before.person_id === next.personId) {
    await transaction
      .updateTable('push_device')
      .set({ made_with: next.id })
      .where('made_with', '=', before.id)
      .execute();
  }
  await endSessions(transaction, { digest });
}
