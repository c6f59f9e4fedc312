/**
 * shared/store/journal/notices.ts: what there is to tell, from being written down until it is spread over people.
 */
import type { KeptNotice, Spreading, TellingStore } from '../telling-store.ts';
import { addNotices, insertMessages, noticeFromRow } from './delivery-rows.ts';
import type { NoticeRow } from './delivery-tables.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import { toldNotices } from './messages.ts';
import { setTurn } from './telling-people.ts';

export function journalNotices(base: JournalBase): TellingStore['notices'] {
  return {
    add: (notices) => base.write((transaction) => addNotices(transaction, notices)),

    take: (nowMs, lease, limit) =>
      base.write(async (transaction) => {
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
        return rows.map(noticeFromRow).sort((a, b) => b.rank - a.rank || a.dueMs - b.dueMs || (a.id < b.id ? -1 : 1));
      }),

    spread: (spreading) => base.write((transaction) => spread(transaction, spreading)),

    get: (id) => base.read(async (db) => (await toldNotices(db, await noticeRows(db, id)))[0]),

    byKey: (key) =>
      base.read(async (db) => {
        const row = await db.selectFrom('notice').selectAll().where('key', '=', key).executeTakeFirst();
        return row && noticeFromRow(row);
      }),

    ofAlarm: (alarmId) =>
      base.read(async (db) => {
        const own = await db.selectFrom('notice').selectAll().where('alarm_id', '=', alarmId).execute();
        const joined = own.flatMap((row) => row.joined_id ?? []);
        const others =
          joined.length === 0 ? [] : await db.selectFrom('notice').selectAll().where('id', 'in', joined).execute();
        const rows = [...own, ...others].map(noticeFromRow).sort((a, b) => b.atMs - a.atMs || (a.id < b.id ? 1 : -1));
        return toldNotices(db, rows);
      }),

    joinedTo: (id) =>
      base.read(async (db) => {
        const rows = await db.selectFrom('notice').selectAll().where('joined_id', '=', id).orderBy('at_ms').execute();
        return rows.map(noticeFromRow);
      }),

    toldOf: (alarmIds) =>
      base.read(async (db) => {
        if (alarmIds.length === 0) return [];
        const rows = await db
          .selectFrom('message')
          .innerJoin('notice', 'notice.id', 'message.notice_id')
          .select(['notice.id as noticeId', 'notice.alarm_id', 'notice.answer', 'notice.at_ms', 'message.person_id'])
          .where('notice.alarm_id', 'in', [...alarmIds])
          .where('message.state', '!=', 'overtaken')
          .orderBy('notice.at_ms')
          .execute();
        const newest = new Map<
          string,
          { alarmId: string; personId: string; answer: NoticeRow['answer']; atMs: number; seen: Set<string> }
        >();
        for (const { alarm_id: alarmId, person_id: personId, answer, at_ms: atMs, noticeId } of rows) {
          if (alarmId === null) continue;
          const key = `${alarmId} ${personId}`;
          const seen = newest.get(key)?.seen ?? new Set<string>();
          newest.set(key, { alarmId, personId, answer, atMs, seen: seen.add(noticeId) });
        }
        return [...newest.values()].map(({ seen, ...told }) => ({ ...told, count: seen.size }));
      }),
  };
}

async function spread(transaction: JournalTransaction, spreading: Spreading): Promise<boolean> {
  const { numUpdatedRows } = await transaction
    .updateTable('notice')
    .set({ state: spreading.state, joined_id: spreading.joinedId ?? null, taken_by: null, taken_until_ms: null })
    .where('id', '=', spreading.noticeId)
    .where('state', '=', 'new')
    .executeTakeFirst();
  if (numUpdatedRows === 0n) return false;
  if (spreading.notices) await addNotices(transaction, spreading.notices);
  if (spreading.messages) await insertMessages(transaction, spreading.messages);
  if (spreading.turn) await setTurn(transaction, spreading.turn);
  return true;
}

async function noticeRows(db: JournalDb, id: string): Promise<KeptNotice[]> {
  const rows = await db.selectFrom('notice').selectAll().where('id', '=', id).execute();
  return rows.map(noticeFromRow);
}
