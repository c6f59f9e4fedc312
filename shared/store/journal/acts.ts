/**
 * shared/store/journal/acts.ts: what people did to a pile.
 */
import type { ActRecord, Journal } from '../journal.ts';
import { mustHavePile } from './batch-rows.ts';
import type { JournalBase } from './journal-base.ts';
import type { JournalTables } from './tables.ts';

export function journalActs(base: JournalBase): Journal['acts'] {
  return {
    list: (pileId, fromMs = 0) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('act')
          .selectAll()
          .where('pile_id', '=', pileId)
          .where('at_ms', '>=', fromMs)
          .orderBy('at_ms')
          .orderBy('id')
          .execute();
        return rows.map(actFromRow);
      }),

    add: (act) =>
      base.write(async (transaction) => {
        await mustHavePile(transaction, act.pileId);
        await transaction.insertInto('act').values(actToRow(act)).execute();
      }),
  };
}

function actFromRow(row: JournalTables['act']): ActRecord {
  return {
    id: row.id,
    pileId: row.pile_id,
    kind: row.kind,
    atMs: row.at_ms,
    ...(row.amount_l !== null && { amountL: row.amount_l }),
    ...(row.depth_m !== null && { depthM: row.depth_m }),
    note: row.note,
  };
}

function actToRow(act: ActRecord): JournalTables['act'] {
  return {
    id: act.id,
    pile_id: act.pileId,
    kind: act.kind,
    at_ms: act.atMs,
    amount_l: act.amountL ?? null,
    depth_m: act.depthM ?? null,
    note: act.note,
  };
}
