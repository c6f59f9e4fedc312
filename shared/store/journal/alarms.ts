/** Alarms and the steps they took, to be read; the watcher writes them with its checkpoints. */
import { type AlarmWords, alarmMachineSchema, alarmWordsSchema, type KeptAlarmMachine } from '../../alarm-record.ts';
import { epochMsSchema } from '../../epoch.ts';
import { message } from '../../messages/message.ts';
import type { AlarmRecord, AlarmStepRecord, Journal } from '../journal.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
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
        return base.rows.all(alarmPlan, rows);
      }),

    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('alarm').selectAll().where('id', '=', id).executeTakeFirst();
        return base.rows.one(alarmPlan, row);
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
        return base.rows.all(alarmPlan, rows);
      }),

    steps: (alarmId) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('alarm_step')
          .selectAll()
          .where('alarm_id', '=', alarmId)
          .orderBy('number')
          .execute();
        return base.rows.all(stepPlan, rows);
      }),
  };
}

/**
 * An alarm that stands is not to be lost for one bad column, nor notified anew: its machine follows from the other columns.
 * Whether somebody has it in hand is the exception: where that cannot be read, it asks for a person again.
 */
export const alarmPlan: RowPlan<'alarm', AlarmRecord> = {
  table: 'alarm',
  toRecord: (row, json) => ({
    id: row.id,
    pileId: row.pile_id,
    kind: row.kind,
    position: row.position,
    severity: row.severity,
    state: row.state,
    raisedAtMs: row.raised_at_ms,
    changedAtMs: row.changed_at_ms,
    closedAtMs: row.closed_at_ms,
    machine: json('machine', row.machine, alarmMachineSchema, machineOf(row)),
    words: json('words', row.words, alarmWordsSchema, lostWords),
  }),
  standIns: (row) => {
    const raisedMs = timeOr(row.raised_at_ms, timeOr(row.changed_at_ms, 0));
    return {
      severity: 'urgent',
      state: row.closed_at_ms === null ? 'unacknowledged' : 'normal',
      raised_at_ms: raisedMs,
      changed_at_ms: raisedMs,
      closed_at_ms: raisedMs,
      machine: '',
      words: '',
    };
  },
};

const timeOr = (value: unknown, other: number) => epochMsSchema.catch(other).parse(value);

const lostWords: AlarmWords = {
  seen: message('warnings.lost.seen'),
  todo: message('warnings.lost.todo'),
  byMs: null,
  caution: null,
};

/** As it was entered; a shelf whose end is not known ends now. */
function machineOf(row: AlarmRow): KeptAlarmMachine {
  const stands = row.state !== 'normal' && row.state !== 'returned-unacknowledged';
  return {
    state: row.state,
    sinceMs: row.changed_at_ms,
    hold: { condition: stands ? 'raised' : 'clear', sinceMs: row.changed_at_ms },
    firstRaisedAtMs: stands ? row.raised_at_ms : null,
    severity: row.state === 'normal' ? null : row.severity,
    shelvedUntilMs: row.state === 'shelved' ? row.changed_at_ms : null,
  };
}

export const stepPlan: RowPlan<'alarm_step', AlarmStepRecord> = {
  table: 'alarm_step',
  toRecord: (row) => ({
    alarmId: row.alarm_id,
    atMs: row.at_ms,
    from: row.from_state,
    to: row.to_state,
    arrow: row.arrow,
    by: row.by,
    note: row.note,
  }),
  standIns: () => ({ by: null, note: null }),
};

/** Adds the alarm, or brings the one with its id up to date. */
export async function keepAlarm(transaction: JournalTransaction, alarm: AlarmRecord): Promise<void> {
  const changing = {
    severity: alarm.severity,
    state: alarm.state,
    raised_at_ms: alarm.raisedAtMs,
    changed_at_ms: alarm.changedAtMs,
    closed_at_ms: alarm.closedAtMs,
    machine: JSON.stringify(alarm.machine),
    words: JSON.stringify(alarm.words),
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
    .select('number')
    .where('alarm_id', '=', step.alarmId)
    .where('at_ms', '=', step.atMs)
    .where('from_state', '=', step.from)
    .where('to_state', '=', step.to)
    .where('arrow', '=', step.arrow)
    .executeTakeFirst();
  if (known) return;
  const { last } = await transaction
    .selectFrom('alarm_step')
    .select((select) => select.fn.max('number').as('last'))
    .where('alarm_id', '=', step.alarmId)
    .executeTakeFirstOrThrow();
  await transaction
    .insertInto('alarm_step')
    .values({
      alarm_id: step.alarmId,
      number: Number(last ?? 0) + 1,
      at_ms: step.atMs,
      from_state: step.from,
      to_state: step.to,
      arrow: step.arrow,
      by: step.by,
      note: step.note,
    })
    .execute();
}
