/**
 * server/watch/watched-pile.ts: a watch with what stands around it, as routes and views see it.
 */
import type { PileSummary } from '../../shared/api/piles.ts';
import type { BatchRecord, PileRecord } from '../../shared/store/journal.ts';
import type { PileSource } from './pile-sources.ts';
import type { PileWatch } from './pile-watch.ts';

export interface WatchedPile {
  readonly pile: PileRecord;
  readonly batch: BatchRecord | null;
  readonly watch: PileWatch;
  readonly sources: readonly PileSource[];
  summary(): PileSummary;
}
