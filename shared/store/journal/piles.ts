/**
 * shared/store/journal/piles.ts: piles, each added with the batch that lies there first.
 */
import { ConflictError } from '../../errors.ts';
import type { BatchRecord, Journal, PileRecord } from '../journal.ts';
import { insertBatch } from './batch-rows.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { JournalTables } from './tables.ts';

export function journalPiles(base: JournalBase): Journal['piles'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('pile').selectAll().orderBy('created_at_ms').orderBy('id').execute();
        return rows.map(pileFromRow);
      }),

    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('pile').selectAll().where('id', '=', id).executeTakeFirst();
        return row && pileFromRow(row);
      }),

    add: (pile, batch) => base.write((transaction) => addPile(transaction, pile, batch)),

    rename: (id, name) =>
      base.write(async (transaction) => {
        await transaction.updateTable('pile').set({ name }).where('id', '=', id).execute();
      }),

    remove: (id) => base.write((transaction) => removePile(transaction, id)),
  };
}

function pileFromRow(row: JournalTables['pile']): PileRecord {
  return { id: row.id, siteId: row.site_id, name: row.name, createdAtMs: row.created_at_ms };
}

async function addPile(transaction: JournalTransaction, pile: PileRecord, batch: BatchRecord): Promise<void> {
  const { id, siteId, name, createdAtMs } = pile;
  const taken = await transaction.selectFrom('pile').select('id').where('id', '=', id).executeTakeFirst();
  if (taken) throw new ConflictError(`Cannot add a pile as its id must be free: "${id}" is taken`, '/id');
  const site = await transaction.selectFrom('site').select('id').where('id', '=', siteId).executeTakeFirst();
  if (!site) throw new ConflictError(`Cannot add a pile as its site must exist: no site "${siteId}"`, '/site');
  await transaction.insertInto('pile').values({ id, site_id: siteId, name, created_at_ms: createdAtMs }).execute();
  await insertBatch(transaction, { ...batch, pileId: id });
}

async function removePile(transaction: JournalTransaction, id: string): Promise<void> {
  for (const table of ['act', 'alarm'] as const) {
    const hanging = await transaction.selectFrom(table).select('id').where('pile_id', '=', id).executeTakeFirst();
    if (hanging)
      throw new ConflictError(`Cannot remove pile "${id}" as nothing may hang on it: it has an ${table}`, '');
  }
  for (const table of ['watch', 'claim', 'batch'] as const) {
    await transaction.deleteFrom(table).where('pile_id', '=', id).execute();
  }
  await transaction.deleteFrom('pile').where('id', '=', id).execute();
}
