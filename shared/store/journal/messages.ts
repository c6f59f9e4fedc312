/** Messages on their way to people, and every attempt to get them there. */
import { sql } from 'kysely';
import type { Message } from '../../messages/message.ts';
import type { NotificationChannel } from '../../notifications.ts';
import type {
  AttemptRecord,
  KeptNotice,
  ListedNotice,
  MessageRecord,
  NotificationsStore,
  SentMessage,
} from '../notifications-store.ts';
import { addNotices, insertMessages, messagePlan, noticePlan } from './delivery-rows.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import { messageText, readMessageText } from './message-text.ts';
import type { RowPlan } from './read-rows.ts';

/** What still has to go out. */
const open = ['waiting', 'held'] as const;

type Messages = NotificationsStore['messages'];
type TakeLease = Parameters<Messages['take']>[2];
type Attempted = Parameters<Messages['attempted']>[1];

export function journalMessages(base: JournalBase): NotificationsStore['messages'] {
  return {
    take: (channel, nowMs, lease, limit) =>
      base.write(async (transaction) =>
        base.rows.all(messagePlan, await take(transaction, channel, nowMs, lease, limit)),
      ),
    attempted: (taker, attempted) => base.write((transaction) => keepAttempt(transaction, taker, attempted)),
    overtake: (id, reason, atMs) => base.write((transaction) => overtake(transaction, id, reason, atMs)),
    undelivered: (limit) => base.read((db) => undelivered(base, db, limit)),
    seen: (id, atMs) => base.write((transaction) => markSeen(transaction, id, atMs)),
    counts: () => base.read(countByState),
    releaseAll: () => base.write(releaseAll),
    cleanUp: (beforeMs) => base.write((transaction) => cleanUp(transaction, beforeMs)),
  };
}

/** Those that are due, for whoever takes them: nobody else has them until its lease ends. */
function take(
  transaction: JournalTransaction,
  channel: NotificationChannel,
  nowMs: number,
  lease: TakeLease,
  limit: number,
) {
  const due = transaction
    .selectFrom('message')
    .select('id')
    .where('state', 'in', open)
    .where('channel', '=', channel)
    .where('next_try_ms', '<=', lease.machineNowMs)
    .where('not_before_ms', '<=', nowMs)
    .where((where) =>
      where.or([where('taken_until_ms', 'is', null), where('taken_until_ms', '<=', lease.machineNowMs)]),
    )
    .orderBy('rank', 'desc')
    .orderBy('next_try_ms')
    .limit(limit);
  return transaction
    .updateTable('message')
    .set({ taken_by: lease.taker, taken_until_ms: lease.untilMs })
    .where('id', 'in', due)
    .where('state', 'in', open)
    .where((where) =>
      where.or([where('taken_until_ms', 'is', null), where('taken_until_ms', '<=', lease.machineNowMs)]),
    )
    .returningAll()
    .execute();
}

/** @returns false when it was not the taker's any more. */
async function keepAttempt(
  transaction: JournalTransaction,
  taker: string,
  { attempt, state, reason, nextTryMs, doneAtMs, messages, notices }: Attempted,
): Promise<boolean> {
  const { numUpdatedRows } = await transaction
    .updateTable('message')
    .set({
      state,
      reason: reason && messageText(reason),
      tries: attempt.number,
      next_try_ms: nextTryMs,
      done_at_ms: doneAtMs,
      taken_by: null,
      taken_until_ms: null,
    })
    .where('id', '=', attempt.messageId)
    .where('taken_by', '=', taker)
    .where('state', 'in', open)
    .executeTakeFirst();
  if (numUpdatedRows === 0n) return false;
  await transaction
    .insertInto('message_attempt')
    .values({
      message_id: attempt.messageId,
      number: attempt.number,
      at_ms: attempt.atMs,
      took_ms: attempt.tookMs,
      outcome: attempt.outcome,
      detail: messageText(attempt.detail),
    })
    .execute();
  if (notices) await addNotices(transaction, notices);
  if (messages) await insertMessages(transaction, messages);
  return true;
}

async function overtake(transaction: JournalTransaction, id: string, reason: Message, atMs: number): Promise<void> {
  await transaction
    .updateTable('message')
    .set({ state: 'overtaken', reason: messageText(reason), done_at_ms: atMs, taken_by: null, taken_until_ms: null })
    .where('id', '=', id)
    .where('state', 'in', open)
    .execute();
}

async function undelivered(base: JournalBase, db: JournalDb, limit: number): ReturnType<Messages['undelivered']> {
  const rows = await db
    .selectFrom('message')
    .selectAll()
    .where('state', '=', 'given-up')
    .where('seen_at_ms', 'is', null)
    .orderBy('done_at_ms', 'desc')
    .limit(limit)
    .execute();
  const given = await withAttempts(base, db, base.rows.all(messagePlan, rows));
  const notices = await noticesById(
    base,
    db,
    given.map(({ noticeId }) => noticeId),
  );
  return given.flatMap((message) => {
    const notice = notices.get(message.noticeId);
    return notice ? [{ ...message, notice }] : [];
  });
}

async function markSeen(transaction: JournalTransaction, id: string, atMs: number): Promise<boolean> {
  const { numUpdatedRows } = await transaction
    .updateTable('message')
    .set({ seen_at_ms: atMs })
    .where('id', '=', id)
    .where('state', '=', 'given-up')
    .executeTakeFirst();
  return numUpdatedRows > 0n;
}

async function countByState(db: JournalDb): ReturnType<Messages['counts']> {
  const rows = await db
    .selectFrom('message')
    .select(['channel', 'state'])
    .select((select) => [
      select.fn.countAll<number | string>().as('count'),
      select.fn.min('made_at_ms').as('oldest'),
      sql<number | string>`sum(case when seen_at_ms is null then 1 else 0 end)`.as('unseen'),
    ])
    .groupBy(['channel', 'state'])
    .execute();
  return rows.map(({ channel, state, count, oldest, unseen }) => ({
    channel,
    state,
    count: Number(count),
    oldestMs: Number(oldest),
    unseen: Number(unseen),
  }));
}

async function releaseAll(transaction: JournalTransaction): Promise<void> {
  const free = { taken_by: null, taken_until_ms: null };
  await transaction.updateTable('message').set(free).where('taken_by', 'is not', null).execute();
  await transaction.updateTable('notice').set(free).where('taken_by', 'is not', null).execute();
}

/** Old notices of which nothing waits any more, with all that hangs on them; a link lives no longer than its notice. */
async function cleanUp(transaction: JournalTransaction, beforeMs: number): Promise<number> {
  const waiting = transaction.selectFrom('message').select('notice_id').where('state', 'in', open);
  const old = await transaction
    .selectFrom('notice')
    .select('id')
    .where('state', '!=', 'new')
    .where('at_ms', '<', beforeMs)
    .where('id', 'not in', waiting)
    .orderBy('at_ms')
    .limit(500)
    .execute();
  const ids = old.map(({ id }) => id);
  if (ids.length === 0) return 0;
  const messages = transaction.selectFrom('message').select('id').where('notice_id', 'in', ids);
  await transaction.deleteFrom('message_attempt').where('message_id', 'in', messages).execute();
  await transaction.deleteFrom('message').where('notice_id', 'in', ids).execute();
  await transaction.deleteFrom('notification_link').where('notice_id', 'in', ids).execute();
  await transaction.deleteFrom('notice').where('id', 'in', ids).execute();
  return ids.length;
}

export async function notifications(
  base: JournalBase,
  db: JournalDb,
  notices: readonly KeptNotice[],
): Promise<ListedNotice[]> {
  if (notices.length === 0) return [];
  const rows = await db
    .selectFrom('message')
    .selectAll()
    .where(
      'notice_id',
      'in',
      notices.map(({ id }) => id),
    )
    .orderBy('made_at_ms')
    .orderBy('id')
    .execute();
  const given = await withAttempts(base, db, base.rows.all(messagePlan, rows));
  return notices.map((notice) => ({ ...notice, messages: given.filter(({ noticeId }) => noticeId === notice.id) }));
}

async function withAttempts(
  base: JournalBase,
  db: JournalDb,
  messages: readonly MessageRecord[],
): Promise<SentMessage[]> {
  if (messages.length === 0) return [];
  const rows = await db
    .selectFrom('message_attempt')
    .selectAll()
    .where(
      'message_id',
      'in',
      messages.map(({ id }) => id),
    )
    .orderBy('number')
    .execute();
  const attempts = base.rows.all(attemptPlan, rows);
  return messages.map((message) => ({
    ...message,
    attempts: attempts.filter(({ messageId }) => messageId === message.id),
  }));
}

export const attemptPlan: RowPlan<'message_attempt', AttemptRecord> = {
  table: 'message_attempt',
  toRecord: (row, json) => ({
    messageId: row.message_id,
    number: row.number,
    atMs: row.at_ms,
    tookMs: row.took_ms,
    outcome: row.outcome,
    detail: readMessageText(json, 'detail', row.detail),
  }),
};

async function noticesById(base: JournalBase, db: JournalDb, ids: readonly string[]): Promise<Map<string, KeptNotice>> {
  if (ids.length === 0) return new Map();
  const rows = await db
    .selectFrom('notice')
    .selectAll()
    .where('id', 'in', [...ids])
    .execute();
  return new Map(base.rows.all(noticePlan, rows).map((notice) => [notice.id, notice]));
}
