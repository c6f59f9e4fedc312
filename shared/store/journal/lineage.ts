/**
 * How batches come from lots and from each other, and where they go. It never keeps half a change, or a flow whose ends
 * are not both there.
 */

import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { BatchStoryRecord, FlowRecord, Journal, LineageChange, LineageRef } from '../journal.ts';
import { insertBatch, mustHavePile, openBatchRow } from './batch-rows.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import { flowPlan, flowToRow, usePlan, useToRow } from './lineage-rows.ts';
import { lotToRow } from './lots.ts';
import { insertPile } from './piles.ts';
import type { RowPlan } from './read-rows.ts';

export const storyPlan: RowPlan<'batch_story', BatchStoryRecord> = {
  table: 'batch_story',
  toRecord: ({ batch_id: batchId, ...story }) => ({ batchId, ...story }),
  standIns: () => ({ name: null, reason: null }),
};

export function journalLineage(base: JournalBase): Journal['lineage'] {
  return {
    flows: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('flow').selectAll().orderBy('at_ms').orderBy('id').execute();
        return base.rows.all(flowPlan, rows);
      }),

    uses: (batchId) =>
      base.read(async (db) => {
        const all = db.selectFrom('use_of_batch').selectAll().orderBy('at_ms').orderBy('id');
        const rows = await (batchId === undefined ? all : all.where('batch_id', '=', batchId)).execute();
        return base.rows.all(usePlan, rows);
      }),

    stories: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('batch_story').selectAll().orderBy('batch_id').execute();
        return base.rows.all(storyPlan, rows);
      }),

    keep: (change, guard) => base.write((transaction) => keepChange(base, transaction, change, guard)),

    rename: (batchId, name) => base.write((transaction) => setStory(transaction, { batchId, name })),

    setOutcome: (batchId, outcome) =>
      base.write(async (transaction) => {
        await transaction.updateTable('batch').set({ outcome }).where('id', '=', batchId).execute();
      }),

    withdraw: (flowId, atMs) =>
      base.write(async (transaction) => {
        const { numUpdatedRows } = await transaction
          .updateTable('flow')
          .set({ withdrawn_at_ms: atMs })
          .where('id', '=', flowId)
          .where('withdrawn_at_ms', 'is', null)
          .executeTakeFirst();
        return numUpdatedRows > 0n;
      }),
  };
}

async function keepChange(
  base: JournalBase,
  transaction: JournalTransaction,
  change: LineageChange,
  guard: (flows: readonly FlowRecord[]) => void,
): Promise<void> {
  const { ended = [], piles = [], batches = [], names = [], lots = [], uses = [], flows = [] } = change;
  // Taken from before it ends: what was abandoned was thrown away.
  for (const { from } of flows) if (from.kind === 'batch') await mustNotBeAbandoned(transaction, from.id);
  for (const one of ended) {
    await transaction
      .updateTable('batch')
      .set({ ended_at_ms: one.atMs })
      .where('id', '=', one.batchId)
      .where('ended_at_ms', 'is', null)
      .execute();
    await setStory(transaction, { batchId: one.batchId, ending: one.ending, reason: one.reason });
  }
  for (const pile of piles) await insertPile(transaction, pile);
  for (const batch of batches) {
    await mustHavePile(transaction, batch.pileId);
    const lying = await openBatchRow(transaction, batch.pileId);
    if (lying) {
      throw new ConflictError(
        message('problem.pile-not-free', { batchText: lying.id, pileText: batch.pileId }),
        '/on/pileId',
      );
    }
    await insertBatch(transaction, batch);
  }
  for (const one of names) await setStory(transaction, one);
  for (const lot of lots) await transaction.insertInto('lot').values(lotToRow(lot)).execute();
  for (const use of uses) await transaction.insertInto('use_of_batch').values(useToRow(use)).execute();
  await addFlows(base, transaction, flows, guard);
}

async function addFlows(
  base: JournalBase,
  transaction: JournalTransaction,
  flows: readonly FlowRecord[],
  guard: (flows: readonly FlowRecord[]) => void,
): Promise<void> {
  if (flows.length === 0) return;
  for (const { from, to } of flows) {
    await mustStand(transaction, from);
    await mustStand(transaction, to);
  }
  const standing = await transaction.selectFrom('flow').selectAll().where('withdrawn_at_ms', 'is', null).execute();
  guard([...base.rows.all(flowPlan, standing), ...flows]);
  for (const flow of flows) await transaction.insertInto('flow').values(flowToRow(flow)).execute();
}

/** Sets what is given of a batch's story and leaves the rest. */
async function setStory(
  transaction: JournalTransaction,
  { batchId, ...story }: Pick<BatchStoryRecord, 'batchId'> & Partial<BatchStoryRecord>,
): Promise<void> {
  await transaction
    .insertInto('batch_story')
    .values({ batch_id: batchId, name: null, ending: null, reason: null, ...story })
    .onConflict((conflict) => conflict.column('batch_id').doUpdateSet(story))
    .execute();
}

async function mustNotBeAbandoned(transaction: JournalTransaction, batchId: string): Promise<void> {
  const story = await transaction
    .selectFrom('batch_story')
    .select('ending')
    .where('batch_id', '=', batchId)
    .executeTakeFirst();
  if (story?.ending !== 'abandoned') return;
  throw new ConflictError(message('problem.abandoned', { idText: batchId }), '');
}

const tableOf = { lot: 'lot', batch: 'batch', use: 'use_of_batch' } as const;

async function mustStand(transaction: JournalTransaction, { kind, id }: LineageRef): Promise<void> {
  const there = await transaction.selectFrom(tableOf[kind]).select('id').where('id', '=', id).executeTakeFirst();
  if (!there) throw new ConflictError(message('problem.no-end-of-flow', { what: kind, idText: id }), '');
}
