/** Versions of entries between rows and records. */
import { z } from 'zod';
import { type EntryFacts, entryFactsSchema } from '../../entry.ts';
import type { EntryRecord } from '../journal.ts';
import { ColumnError, type RowPlan } from './read-rows.ts';
import type { EntryRow } from './tables.ts';

const photoIdsSchema = z.array(z.string());

export const entryPlan: RowPlan<'entry', EntryRecord> = {
  table: 'entry',
  toRecord: (row, json) => ({
    id: row.id,
    entryId: row.entry_id,
    version: row.version,
    pileId: row.pile_id,
    atMs: row.at_ms,
    recordedAtMs: row.recorded_at_ms,
    by: row.by,
    note: row.note,
    photoIds: json('photo_ids', row.photo_ids, photoIdsSchema, []),
    what: ofKind(row.kind, json('what', row.what, entryFactsSchema)),
    reason: row.reason,
    withdrawn: row.withdrawn === 1,
  }),
  standIns: () => ({ batch_id: null, by: null, note: null, reason: null, photo_ids: '' }),
};

function ofKind(kind: EntryRow['kind'], what: EntryFacts): EntryFacts {
  if (what.kind !== kind) throw new ColumnError('what', `is not what it should be: expected ${kind}`);
  return what;
}

export function entryToRow(entry: EntryRecord): EntryRow {
  return {
    id: entry.id,
    entry_id: entry.entryId,
    version: entry.version,
    newest: 1,
    pile_id: entry.pileId,
    kind: entry.what.kind,
    batch_id: entry.what.kind === 'verdict' ? entry.what.batchId : null,
    at_ms: entry.atMs,
    recorded_at_ms: entry.recordedAtMs,
    by: entry.by,
    note: entry.note,
    photo_ids: JSON.stringify(entry.photoIds),
    what: JSON.stringify(entryFactsSchema.parse(entry.what)),
    reason: entry.reason,
    withdrawn: entry.withdrawn ? 1 : 0,
  };
}

/** Whether a row sent again says the same. Where no own time was given, the time of arrival stood for it and may differ. */
export function saysTheSame(kept: EntryRow, again: EntryRow): boolean {
  const sameTime =
    kept.at_ms === again.at_ms || (kept.at_ms === kept.recorded_at_ms && again.at_ms === again.recorded_at_ms);
  const same = (['pile_id', 'by', 'note', 'photo_ids', 'what', 'reason', 'withdrawn'] as const).every(
    (column) => kept[column] === again[column],
  );
  return sameTime && same;
}
