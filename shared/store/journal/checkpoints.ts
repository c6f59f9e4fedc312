/** Where each pile's watcher stopped, kept together with the alarms it changed. */
import { z } from 'zod';
import type { CheckpointRecord, Journal, WatchChange } from '../journal.ts';
import { addAlarmStep, keepAlarm } from './alarms.ts';
import { addNotices } from './delivery-rows.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import { mustHold } from './leases.ts';
import { sealed, unsealed } from './sealed.ts';
import { setAside } from './set-aside.ts';
import type { JournalTables } from './tables.ts';

export function journalCheckpoints(base: JournalBase): Journal['watch'] {
  return {
    get: (pileId) =>
      base.read(async (db) => {
        const row = await db.selectFrom('watch').selectAll().where('pile_id', '=', pileId).executeTakeFirst();
        return row && checkpointFrom(row);
      }),

    // Under a lease nobody else writes about the pile, so workers need not wait for each other.
    keep: (change) =>
      change.lease
        ? base.writeBesideOthers((transaction) => keepChange(base, transaction, change))
        : base.write((transaction) => keepChange(base, transaction, change)),

    forget: (pileId) =>
      base.write(async (transaction) => {
        await transaction.deleteFrom('watch').where('pile_id', '=', pileId).execute();
      }),
  };
}

/** The time is part of what is sealed: with another one, readings would be passed over. */
function checkpointFrom(row: JournalTables['watch']): CheckpointRecord | undefined {
  const kept = checkpointSchema.safeParse(unsealed(String(row.state))?.value);
  const { pile_id: pileId, batch_id: batchId, through_ms: throughMs } = row;
  if (!kept.success || kept.data.throughMs !== throughMs || kept.data.batchId !== batchId) return undefined;
  return { pileId, batchId, throughMs, state: kept.data.state };
}

const checkpointSchema = z.object({ batchId: z.string(), throughMs: z.number(), state: z.unknown() });

async function keepChange(
  base: JournalBase,
  transaction: JournalTransaction,
  { alarms, steps, watch, notices, lease }: WatchChange,
): Promise<void> {
  if (lease) await mustHold(base.engine, transaction, lease);
  // Closed ones first: the same kind may have been raised again in the same look, and only one may be open.
  for (const { id } of alarms) await setAside(base, transaction, 'alarm', { id });
  for (const alarm of alarms) if (alarm.closedAtMs !== null) await keepAlarm(transaction, alarm);
  for (const alarm of alarms) if (alarm.closedAtMs === null) await keepAlarm(transaction, alarm);
  for (const step of steps) await addAlarmStep(transaction, step);
  if (watch !== null) await keepWatch(transaction, watch);
  if (notices) await addNotices(transaction, notices);
}

async function keepWatch(transaction: JournalTransaction, watch: CheckpointRecord): Promise<void> {
  const { batchId, throughMs, state } = watch;
  const stopped = { batch_id: batchId, through_ms: throughMs, state: sealed({ batchId, throughMs, state }) };
  await transaction
    .insertInto('watch')
    .values({ pile_id: watch.pileId, ...stopped })
    .onConflict((conflict) => conflict.column('pile_id').doUpdateSet(stopped))
    .execute();
}
