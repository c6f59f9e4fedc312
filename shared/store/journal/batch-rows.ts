/** Batches between rows and records, for the groups that need them. */

import { givenRecipeSchema } from '../../contracts/domain/batch.ts';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import { type StageLimits, stageLimitsSchema } from '../../stage.ts';
import type { BatchRecord } from '../journal.ts';
import type { JournalDb } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import type { BatchRow } from './tables.ts';

const limitsSchema = stageLimitsSchema.partial();

/** A pile is better judged as if nothing had been said of it than not at all; without stage and times it cannot be. */
export const batchPlan: RowPlan<'batch', BatchRecord> = {
  table: 'batch',
  toRecord: (row, json) => ({
    id: row.id,
    pileId: row.pile_id,
    stage: row.stage,
    startedAtMs: row.started_at_ms,
    endedAtMs: row.ended_at_ms,
    outcome: row.outcome,
    recipe: json('recipe', row.recipe, givenRecipeSchema, {}),
    limits: json('limits', row.limits, limitsSchema, {}) as Partial<StageLimits>,
  }),
  standIns: () => ({ outcome: null, recipe: '', limits: '' }),
};

function batchToRow(batch: BatchRecord): BatchRow {
  return {
    id: batch.id,
    pile_id: batch.pileId,
    stage: batch.stage,
    started_at_ms: batch.startedAtMs,
    ended_at_ms: batch.endedAtMs,
    outcome: batch.outcome,
    recipe: JSON.stringify(batch.recipe),
    limits: JSON.stringify(batch.limits),
  };
}

export function openBatchRow(db: JournalDb, pileId: string): Promise<BatchRow | undefined> {
  return db
    .selectFrom('batch')
    .selectAll()
    .where('pile_id', '=', pileId)
    .where('ended_at_ms', 'is', null)
    .executeTakeFirst();
}

/** @throws {ConflictError} when the id is taken. */
export async function insertBatch(db: JournalDb, batch: BatchRecord): Promise<void> {
  const taken = await db.selectFrom('batch').select('id').where('id', '=', batch.id).executeTakeFirst();
  if (taken) throw new ConflictError(message('problem.id-taken', { what: 'batch', idText: batch.id }), '/id');
  await db.insertInto('batch').values(batchToRow(batch)).execute();
}

/** @throws {ConflictError} when there is no such pile. */
export async function mustHavePile(db: JournalDb, pileId: string): Promise<void> {
  const pile = await db.selectFrom('pile').select('id').where('id', '=', pileId).executeTakeFirst();
  if (!pile) throw new ConflictError(message('problem.no-pile', { idText: pileId }), '/pileId');
}
