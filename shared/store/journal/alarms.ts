/**
 * shared/store/journal/alarms.ts: alarms and the steps they took, to be read; the watcher writes them (watch.ts).
 */
import type { AlarmRecord, AlarmStepRecord, Journal } from '../journal.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { AlarmRow } from './tables.ts';

export function journalAlarms(base: JournalBase): Journal['alarms'] {
  return {
    open: (pileId) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('alarm')
          .selectAll()
          .where('closed_at_ms', 'is', null)
          .$if(pileId !== undefined, (open) => open.where('pile_id', '=', pileId ?? ''))
          .orderBy('raised_at_ms')
          .orderBy('id')
          .execute();
        return rows.map(alarmFromRow);
      }),

    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('alarm').selectAll().where('id', '=', id).executeTakeFirst();
        return row && alarmFromRow(row);
      }),

    forPile: (pileId, limit) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('alarm')
          .selectAll()
          .where('pile_id', '=', pileId)
          .orderBy('raised_at_ms', 'desc')
          .orderBy('id', 'desc')
          .limit(limit)
          .execute();
        return rows.map(alarmFromRow);
      }),

    steps: (alarmId) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('alarm_step')
          .selectAll()
          .where('alarm_id', '=', alarmId)
          .orderBy('place')
          .execute();
        return rows.map((row) => ({
          alarmId: row.alarm_id,
          atMs: row.at_ms,
          from: row.from_state,
          to: row.to_state,
          arrow: row.arrow,
          by: row.by,
          note: row.note,
        }));
      }),
  };
}

function alarmFromRow(row: AlarmRow): AlarmRecord {
  return {
    id: row.id,
    pileId: row.pile_id,
    kind: row.kind,
    position: row.position,
    severity: row.severity,
    state: row.state,
    raisedAtMs: row.raised_at_ms,
    changedAtMs: row.changed_at_ms,
    closedAtMs: row.closed_at_ms,
    machine: row.machine,
    words: row.words,
  };
}

/** Adds the alarm, or brings the one with its id up to date. */
export async function keepAlarm(transaction: JournalTransaction, alarm: AlarmRecord): Promise<void> {
  const changing = {
    severity: alarm.severity,
    state: alarm.state,
    raised_at_ms: alarm.raisedAtMs,
    changed_at_ms: alarm.changedAtMs,
    closed_at_ms: alarm.closedAtMs,
    machine: alarm.machine,
    words: alarm.words,
  };
  await transaction
    .insertInto('alarm')
    .values({ id: alarm.id, pile_id: alarm.pileId, kind: alarm.kind, position: alarm.position, ...changing })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(changing))
    .execute();
}

/** The same step again is one: a commit whose answer was lost on the way is tried again. */
export async function addAlarmStep(transaction: JournalTransaction, step: AlarmStepRecord): Promise<void> {
  const known = await transaction
    .selectFrom('alarm_step')
    .select('place')
    .where('alarm_id', '=', step.alarmId)
    .where('at_ms', '=', step.atMs)
    .where('from_state', '=', step.from)
    .where('to_state', '=', step.to)
    .where('arrow', '=', step.arrow)
    .executeTakeFirst();
  if (known) return;
  const { last } = await transaction
    .selectFrom('alarm_step')
    .select((select) => select.fn.max('place').as('last'))
    .where('alarm_id', '=', step.alarmId)
    .executeTakeFirstOrThrow();
  await transaction
    .insertInto('alarm_step')
    .values({
      alarm_id: step.alarmId,
      place: Number(last ?? 0) + 1,
      at_ms: step.atMs,
      from_state: step.from,
      to_state: step.to,
      arrow: step.arrow,
      by: step.by,
      note: step.note,
    })
    .execute();
}
