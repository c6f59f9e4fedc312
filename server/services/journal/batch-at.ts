/** Which batch lay on a pile at a time. */
import type { BatchRecord } from '../../../shared/store/journal.ts';

/** @param batches Of one pile or of all. */
export function batchAt(batches: readonly BatchRecord[], pileId: string, atMs: number): BatchRecord | undefined {
  return batches.find(
    (batch) =>
      batch.pileId === pileId && batch.startedAtMs <= atMs && (batch.endedAtMs === null || atMs < batch.endedAtMs),
  );
}
