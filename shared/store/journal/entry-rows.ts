/**
 * shared/store/journal/entry-rows.ts: versions of entries between rows and records.
 */
import { z } from 'zod';
import { entryFactsSchema } from '../../entry.ts';
import { StoreError } from '../../errors.ts';
import type { EntryRecord } from '../journal.ts';
import type { EntryRow } from './tables.ts';

const photoIdsSchema = z.array(z.string());

/** @throws {StoreError} when the row's JSON is not what we write. */
export function entryFromRow(row: EntryRow): EntryRecord {
  try {
    return {
      id: row.id,
      entryId: row.entry_id,
      version: row.version,
      pileId: row.pile_id,
      atMs: row.at_ms,
      recordedAtMs: row.recorded_at_ms,
      by: row.by,
      note: row.note,
      photoIds: photoIdsSchema.parse(JSON.parse(row.photo_ids)),
      what: entryFactsSchema.parse(JSON.parse(row.what)),
      reason: row.reason,
      withdrawn: row.withdrawn === 1,
    };
  } catch (cause) {
    throw new StoreError(`Cannot read entry "${row.id}" as its content must be ours`, { cause });
  }
}

export function entryToRow(entry: EntryRecord): EntryRow {
  return {
    id: entry.id,
    entry_id: entry.entryId,
    version: entry.version,
    newest: 1,
    pile_id: entry.pileId,
    kind: entry.what.kind,
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
