/** A pile as it is shown before anybody has judged it: what is written down of it, and nothing more. */
import type { PileSummary } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { BatchRecord, PileRecord } from '../../../shared/store/journal.ts';

export function unseenPile(pile: PileRecord, batch: BatchRecord | null): PileSummary {
  return {
    id: pile.id,
    name: pile.name,
    site: pile.siteId,
    stage: batch?.stage ?? 'bran',
    batch: batch && {
      id: batch.id,
      startedAt: toInstant(batch.startedAtMs),
      progress: 0,
      phase: 'resting',
      phaseReason: 'not judged yet',
    },
    positions: {},
    condition: batch ? 'This pile is being read for the first time.' : 'No batch lies here now.',
    next: batch ? 'Wait a moment.' : 'Start the next batch when you lay it.',
    tone: 'calm',
    alarms: [],
  };
}
