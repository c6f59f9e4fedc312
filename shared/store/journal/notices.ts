/** What there is to tell, from being written down until it is fanned out to people. */
import { sql } from 'kysely';
import {
  type FanOut,
  type KeptNotice,
  type NotificationsStore,
  type NotifiedPerson,
  overEnding,
} from '../notifications-store.ts';
import { addNotices, insertMessages, noticePlan } from './delivery-rows.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import { notifications } from './messages.ts';
import { setStep } from './notification-preferences.ts';

type Notices = NotificationsStore['notices'];

export function journalNotices(base: JournalBase): Notices {
  return {
    add: (notices) => base.write((transaction) => addNotices(transaction, notices)),
    take: (nowMs, lease, limit) => base.write((transaction) => take(base, transaction, nowMs, lease, limit)),
    fanOut: (fanned) => base.write((transaction) => fanOut(transaction, fanned)),
    setAside: (sinceMs) => base.read((db) => countSetAside(db, sinceMs)),
    get: (id) => base.read(async (db) => (await notifications(base, db, await noticeRows(base, db, id)))[0]),
    byKey: (key) =>
      base.read(async (db) => {
        const row = await db.selectFrom('notice').selectAll().where('key', '=', key).executeTakeFirst();
        return base.rows.one(noticePlan, row);
      }),
    ofAlarm: (alarmId) => base.read((db) => ofAlarm(base, db, alarmId)),
    joinedTo: (id) =>
      base.read(async (db) => {
        const rows = await db.selectFrom('notice').selectAll().where('joined_id', '=', id).orderBy('at_ms').execute();
        return base.rows.all(noticePlan, rows);
      }),
    notifiedOf: (alarmIds) => base.read((db) => notifiedOf(base, db, alarmIds)),
    openSites: (sinceMs) => base.read((db) => openSites(base, db, sinceMs)),
  };
}

/** Those that are due, gravest first, for whoever takes them: nobody else has them until its lease ends. */
async function take(
  base: JournalBase,
  transaction: JournalTransaction,
  nowMs: number,
  lease: Parameters<Notices['take']>[1],
  limit: number,
): ReturnType<Notices['take']> {
  const due = transaction
    .selectFrom('notice')
    .select('id')
    .where('state', '=', 'new')
    .where('due_ms', '<=', nowMs)
    .where((where) =>
      where.or([where('taken_until_ms', 'is', null), where('taken_until_ms', '<=', lease.machineNowMs)]),
    )
    .orderBy('rank', 'desc')
    .orderBy('due_ms')
    .limit(limit);
  // Asked again outside: where two take at once, the second sees what the first has done to the row.
  const rows = await transaction
    .updateTable('notice')
    .set({ taken_by: lease.taker, taken_until_ms: lease.untilMs })
    .where('id', 'in', due)
    .where('state', '=', 'new')
    .where((where) =>
      where.or([where('taken_until_ms', 'is', null), where('taken_until_ms', '<=', lease.machineNowMs)]),
    )
    .returningAll()
    .execute();
  return base.rows.all(noticePlan, rows).sort((a, b) => b.rank - a.rank || a.dueMs - b.dueMs || (a.id < b.id ? -1 : 1));
}

async function countSetAside(db: JournalDb, sinceMs: number): Promise<number> {
  const rows = await db
    .selectFrom('notice')
    .select(({ fn }) => fn.countAll().as('count'))
    .where('state', '=', 'set-aside')
    .where('at_ms', '>=', sinceMs)
    .execute();
  return Number(rows[0]?.count ?? 0);
}

/** Its own, and those of others that they were joined to; newest first. */
async function ofAlarm(base: JournalBase, db: JournalDb, alarmId: string): ReturnType<Notices['ofAlarm']> {
  const own = await db.selectFrom('notice').selectAll().where('alarm_id', '=', alarmId).execute();
  const joined = own.flatMap((row) => row.joined_id ?? []).filter((id) => own.every((row) => row.id !== id));
  const others =
    joined.length === 0 ? [] : await db.selectFrom('notice').selectAll().where('id', 'in', joined).execute();
  const rows = base.rows.all(noticePlan, [...own, ...others]).sort((a, b) => b.atMs - a.atMs || (a.id < b.id ? 1 : -1));
  return notifications(base, db, rows);
}

/** Silences of whole sites that nobody was notified of the end of. */
async function openSites(base: JournalBase, db: JournalDb, sinceMs: number): ReturnType<Notices['openSites']> {
  const over = db.selectFrom('notice').select('key').where('about', '=', 'site').where('answer', '=', 'cleared');
  const rows = await db
    .selectFrom('notice')
    .selectAll()
    .where('about', '=', 'site')
    .where('answer', '=', 'first-raise')
    .where('at_ms', '>=', sinceMs)
    .where(sql<string>`key || ${overEnding}`, 'not in', over)
    .execute();
  return base.rows.all(noticePlan, rows);
}

async function fanOut(transaction: JournalTransaction, fanned: FanOut): Promise<boolean> {
  const { numUpdatedRows } = await transaction
    .updateTable('notice')
    .set({ state: fanned.state, joined_id: fanned.joinedId ?? null, taken_by: null, taken_until_ms: null })
    .where('id', '=', fanned.noticeId)
    .where('state', '=', 'new')
    .executeTakeFirst();
  if (numUpdatedRows === 0n) return false;
  if (fanned.notices) await addNotices(transaction, fanned.notices);
  if (fanned.messages) await insertMessages(transaction, fanned.messages);
  if (fanned.step && (await isKept(transaction, fanned.step.alarmId))) await setStep(transaction, fanned.step);
  return true;
}

/** People may be notified of a warning before its alarm could be kept. */
async function isKept(transaction: JournalTransaction, alarmId: string): Promise<boolean> {
  const alarm = await transaction.selectFrom('alarm').select('id').where('id', '=', alarmId).executeTakeFirst();
  return alarm !== undefined;
}

async function noticeRows(base: JournalBase, db: JournalDb, id: string): Promise<KeptNotice[]> {
  const rows = await db.selectFrom('notice').selectAll().where('id', '=', id).execute();
  return base.rows.all(noticePlan, rows);
}

async function notifiedOf(base: JournalBase, db: JournalDb, alarmIds: readonly string[]): Promise<NotifiedPerson[]> {
  if (alarmIds.length === 0) return [];
  const notices = await db
    .selectFrom('notice')
    .selectAll()
    .where('alarm_id', 'in', [...alarmIds])
    .execute();
  const notified = new Map<string, NotifiedPerson>();
  const ordered = (await notifications(base, db, base.rows.all(noticePlan, notices))).sort((a, b) => a.atMs - b.atMs);
  for (const { messages, ...notice } of ordered) {
    for (const { personId, notBeforeMs, state, tries } of messages) {
      if (notice.alarmId === null) continue;
      const key = `${notice.alarmId} ${personId}`;
      const before = notified.get(key);
      const isSame = before?.newest.id === notice.id;
      notified.set(key, {
        alarmId: notice.alarmId,
        personId,
        lastAtMs: Math.max(before?.lastAtMs ?? 0, notice.atMs, notBeforeMs),
        count: (before?.count ?? 0) + (isSame ? 0 : 1),
        reached: before?.reached === true || state === 'sent' || (state === 'waiting' && tries === 0),
        newest: notice,
      });
    }
  }
  return [...notified.values()];
}
