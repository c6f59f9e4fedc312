/** The entries that are acts, as the judge hears of them: in the order done, as they stand now. */
import { actKindSchema, actKinds } from '../../contracts/domain/batch.ts';
import type { EntryFacts } from '../../entry.ts';
import type { ActRecord, EntryRecord, Journal } from '../journal.ts';
import { addEntry } from './entries.ts';
import { entryPlan } from './entry-rows.ts';
import type { JournalBase } from './journal-base.ts';

export function journalActs(base: JournalBase): Journal['acts'] {
  return {
    list: (pileId, fromMs = 0) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('entry')
          .selectAll()
          .where('newest', '=', 1)
          .where('withdrawn', '=', 0)
          .where('pile_id', '=', pileId)
          .where('kind', 'in', [...actKinds])
          .where('at_ms', '>=', fromMs)
          .orderBy('at_ms')
          .orderBy('entry_id')
          .execute();
        return base.rows.all(entryPlan, rows).map(actOf);
      }),

    add: (act) =>
      base.write(async (transaction) => {
        await addEntry(transaction, entryOf(act));
      }),
  };
}

function actOf(entry: EntryRecord): ActRecord {
  const { what } = entry;
  return {
    id: entry.entryId,
    pileId: entry.pileId,
    kind: actKindSchema.parse(what.kind),
    atMs: entry.atMs,
    ...('amountL' in what && what.amountL !== undefined && { amountL: what.amountL }),
    ...('depthM' in what && what.depthM !== undefined && { depthM: what.depthM }),
    ...('rainMm' in what && what.rainMm !== undefined && { rainMm: what.rainMm }),
    note: entry.note,
  };
}

function entryOf({ id, pileId, kind, atMs, amountL, depthM, rainMm, note }: ActRecord): EntryRecord {
  return {
    id,
    entryId: id,
    version: 1,
    pileId,
    atMs,
    recordedAtMs: atMs,
    by: null,
    note,
    photoIds: [],
    what: { kind, amountL, depthM, rainMm } as EntryFacts,
    reason: null,
    withdrawn: false,
  };
}
