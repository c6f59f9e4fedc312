/** What lay on a pile, one batch at a time. */

import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { Journal } from '../journal.ts';
import { batchPlan, insertBatch, mustHavePile, openBatchRow } from './batch-rows.ts';
import type { JournalBase } from './journal-base.ts';
import { setAside } from './set-aside.ts';
import type { BatchRow } from './tables.ts';

export function journalBatches(base: JournalBase): Journal['batches'] {
  return {
    list: (pileId) =>
      base.read(async (db) => {
        const all = db.selectFrom('batch').selectAll().orderBy('started_at_ms').orderBy('id');
        const rows = await (pileId === undefined ? all : all.where('pile_id', '=', pileId)).execute();
        return base.rows.all(batchPlan, rows);
      }),

    open: (pileId) =>
      base.read(async (db) => {
        const row = await openBatchRow(db, pileId);
        return base.rows.one(batchPlan, row);
      }),

    add: (batch) =>
      base.write(async (transaction) => {
        await mustHavePile(transaction, batch.pileId);
        const lying = batch.endedAtMs === null ? await openBatchRow(transaction, batch.pileId) : undefined;
        if (lying) {
          throw new ConflictError(
            message('problem.pile-not-free', { batchText: lying.id, pileText: batch.pileId }),
            '/pileId',
          );
        }
        await insertBatch(transaction, batch);
      }),

    change: (id, { recipe, limits, startedAtMs }) =>
      base.write(async (transaction) => {
        const row: Partial<BatchRow> = {};
        if (recipe !== undefined) row.recipe = JSON.stringify(recipe);
        if (limits !== undefined) row.limits = JSON.stringify(limits);
        if (startedAtMs !== undefined) row.started_at_ms = startedAtMs;
        if (Object.keys(row).length === 0) return;
        await setAside(base, transaction, 'batch', { id });
        await transaction.updateTable('batch').set(row).where('id', '=', id).execute();
      }),

    finish: (id, endedAtMs, outcome) =>
      base.write(async (transaction) => {
        await transaction.updateTable('batch').set({ ended_at_ms: endedAtMs, outcome }).where('id', '=', id).execute();
      }),
  };
}
