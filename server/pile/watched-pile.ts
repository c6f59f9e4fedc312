/** A pile with what its watch saw of it, as routes and views see it, wherever it is watched. */
import type { ExpectedBand } from '../../core/expect/band.ts';
import type { Assessment } from '../../core/session/assessment.ts';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import type { BatchRecord, PileRecord } from '../../shared/store/journal.ts';
import type { AlarmState } from '../../shared/warning.ts';
import type { PileSource } from './pile-sources.ts';
import type { PileWatch } from './pile-watch.ts';

/** Null until the first look, or the first curve. */
export interface Judged {
  readonly assessment: Assessment | null;
  readonly band: ExpectedBand | null;
}

export interface WatchedPile {
  readonly pile: PileRecord;
  readonly batch: BatchRecord | null;
  readonly sources: readonly PileSource[];
  /** Air of neighbours that stands by. */
  readonly standbys: readonly PileSource[];
  summary(): PileSummary;
  /** States of the alarms that are open. */
  openAlarms(): readonly AlarmState[];
  judged(): Promise<Judged>;
}

/** One that is watched here, in this process. */
export interface OwnPile extends WatchedPile {
  readonly watch: PileWatch;
}
