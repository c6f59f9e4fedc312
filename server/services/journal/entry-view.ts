/** Entries as the API shows them. */
import { entryMessage } from '../../../core/records/entry-message.ts';
import type { Entry, EntryVersion } from '../../../shared/contracts/journal.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { sampleMoistureFrac } from '../../../shared/entry.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import type { Stage } from '../../../shared/names.ts';
import type { BatchRecord, EntryRecord } from '../../../shared/store/journal.ts';
import { batchAt } from './batch-at.ts';

/** @param stage Of the batch that it is about, where there is one. */
export function versionView(entry: EntryRecord, stage?: Stage): EntryVersion {
  const { what } = entry;
  const weighedDry = what.kind === 'sample' && what.dryG !== undefined;
  return {
    versionId: entry.id,
    version: entry.version,
    at: toInstant(entry.atMs),
    recordedAt: toInstant(entry.recordedAtMs),
    by: entry.by,
    note: entry.note,
    photoIds: [...entry.photoIds],
    what,
    ...inWords({ says: entryMessage(what, stage) }, 0),
    moistureFrac: weighedDry ? sampleMoistureFrac(what.wetG, what.dryG as number) : null,
    reason: entry.reason,
    withdrawn: entry.withdrawn,
  };
}

/** @param batches Of the entry's pile, or of all. */
export function entryView(entry: EntryRecord, batches: readonly BatchRecord[]): Entry {
  const { what } = entry;
  const batch =
    what.kind === 'verdict'
      ? batches.find(({ id }) => id === what.batchId)
      : batchAt(batches, entry.pileId, entry.atMs);
  return {
    ...versionView(entry, batch?.stage),
    id: entry.entryId,
    pileId: entry.pileId,
    batchId: batch?.id ?? null,
  };
}
