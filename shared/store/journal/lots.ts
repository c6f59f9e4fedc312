/** Lots of starter and material; they are added with the lineage (lineage.ts). */
import { z } from 'zod';
import { materialFactsSchema, starterFactsSchema } from '../../contracts/lots.ts';
import type { Journal, LotRecord } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import { setAside } from './set-aside.ts';
import type { LotRow } from './tables.ts';

/** As kept: instants are epoch ms, and never taken for seconds. */
const factsSchema = z.discriminatedUnion('kind', [
  starterFactsSchema.extend({ collectedAt: z.number().optional() }),
  materialFactsSchema.extend({ receivedAt: z.number().optional() }),
]);

export function journalLots(base: JournalBase): Journal['lots'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('lot').selectAll().orderBy('created_at_ms').orderBy('id').execute();
        return base.rows.all(lotPlan, rows);
      }),

    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('lot').selectAll().where('id', '=', id).executeTakeFirst();
        return base.rows.one(lotPlan, row);
      }),

    change: (lot) =>
      base.write(async (transaction) => {
        const { id, created_at_ms: _, ...changing } = lotToRow(lot);
        await setAside(base, transaction, 'lot', { id });
        await transaction.updateTable('lot').set(changing).where('id', '=', id).execute();
      }),
  };
}

export const lotPlan: RowPlan<'lot', LotRecord> = {
  table: 'lot',
  toRecord: (row, json) => ({
    id: row.id,
    name: row.name,
    createdAtMs: row.created_at_ms,
    storage: row.storage,
    massKg: row.mass_kg,
    volumeL: row.volume_l,
    note: row.note,
    usedUp: row.used_up === 1,
    facts: json('facts', row.facts, factsSchema),
  }),
  standIns: () => ({ storage: null, note: null, mass_kg: null, volume_l: null }),
};

export function lotToRow(lot: LotRecord): LotRow {
  return {
    id: lot.id,
    name: lot.name,
    created_at_ms: lot.createdAtMs,
    storage: lot.storage,
    mass_kg: lot.massKg,
    volume_l: lot.volumeL,
    note: lot.note,
    used_up: lot.usedUp ? 1 : 0,
    facts: JSON.stringify(lot.facts),
  };
}
