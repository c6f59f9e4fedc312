/** Piles, each added with the batch that lies there first. */

import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { BatchRecord, Journal, PileRecord } from '../journal.ts';
import { insertBatch } from './batch-rows.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

export function journalPiles(base: JournalBase): Journal['piles'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('pile').selectAll().orderBy('created_at_ms').orderBy('id').execute();
        return base.rows.all(pilePlan, rows);
      }),

    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('pile').selectAll().where('id', '=', id).executeTakeFirst();
        return base.rows.one(pilePlan, row);
      }),

    add: (pile, batch) => base.write((transaction) => addPile(transaction, pile, batch)),

    rename: (id, name) =>
      base.write(async (transaction) => {
        await transaction.updateTable('pile').set({ name }).where('id', '=', id).execute();
      }),

    remove: (id) => base.write((transaction) => removePile(transaction, id)),
  };
}

/** A pile without a readable name is called by its id: it must be watched all the same. */
export const pilePlan: RowPlan<'pile', PileRecord> = {
  table: 'pile',
  toRecord: (row) => ({ id: row.id, siteId: row.site_id, name: row.name, createdAtMs: row.created_at_ms }),
  standIns: ({ id }) => ({ name: String(id), created_at_ms: 0 }),
};

async function addPile(transaction: JournalTransaction, pile: PileRecord, batch: BatchRecord): Promise<void> {
  await insertPile(transaction, pile);
  await insertBatch(transaction, { ...batch, pileId: pile.id });
}

/** @throws {ConflictError} when the id is taken or the site unknown. */
export async function insertPile(transaction: JournalTransaction, pile: PileRecord): Promise<void> {
  const { id, siteId, name, createdAtMs } = pile;
  const taken = await transaction.selectFrom('pile').select('id').where('id', '=', id).executeTakeFirst();
  if (taken) throw new ConflictError(message('problem.id-taken', { what: 'pile', idText: id }), '/id');
  const site = await transaction.selectFrom('site').select('id').where('id', '=', siteId).executeTakeFirst();
  if (!site) throw new ConflictError(message('problem.no-site-for-pile', { idText: siteId }), '/site');
  await transaction.insertInto('pile').values({ id, site_id: siteId, name, created_at_ms: createdAtMs }).execute();
}

async function removePile(transaction: JournalTransaction, id: string): Promise<void> {
  for (const table of ['entry', 'alarm'] as const) {
    const hanging = await transaction.selectFrom(table).select('id').where('pile_id', '=', id).executeTakeFirst();
    if (hanging) throw hangsOn(id, table);
  }
  const batches = transaction.selectFrom('batch').select('id').where('pile_id', '=', id);
  const flow = await transaction
    .selectFrom('flow')
    .select('id')
    .where((where) =>
      where.or([
        where.and([where('from_kind', '=', 'batch'), where('from_id', 'in', batches)]),
        where.and([where('to_kind', '=', 'batch'), where('to_id', 'in', batches)]),
      ]),
    )
    .executeTakeFirst();
  if (flow) throw hangsOn(id, 'lineage');
  await transaction.deleteFrom('batch_story').where('batch_id', 'in', batches).execute();
  for (const table of ['watch', 'claim', 'batch'] as const) {
    await transaction.deleteFrom(table).where('pile_id', '=', id).execute();
  }
  await transaction.deleteFrom('pile').where('id', '=', id).execute();
}

function hangsOn(id: string, what: 'entry' | 'alarm' | 'lineage'): ConflictError {
  return new ConflictError(message('problem.pile-has', { what, idText: id }), '');
}
