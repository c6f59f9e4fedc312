import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Journal, Lease, PileRecord, WatchChange } from '../../shared/store/journal.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { LiveHub } from '../services/live/live-hub.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';
import type { BandKeeper } from './band-keeper.ts';
import type { SharedWatch } from './show-pile.ts';

export interface PileMonitorParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly probes: ProbeBook;
  readonly hub: LiveHub;
  readonly bands: BandKeeper;
  /** Where several processes watch, each watches the sites it took; absent where this one watches all. */
  readonly shared?: SharedWatch;
  /** Where this process watches all on a journal that others could reach: what it holds, and whom to tell when it is lost. */
  readonly whole?: { readonly lease: Lease; lost(): void };
  /** Alarms changed, and that is kept; what there is to notify stands in the outbox. Must be quick. */
  readonly onAlarms?: (pile: PileRecord, change: WatchChange) => void;
  /** Alarms changed and that cannot be kept, try after try: people are to hear of it all the same. Must be quick. */
  readonly onUnkept?: (notices: readonly NoticeRecord[]) => void;
  /** A pile was evaluated. Must be quick. */
  readonly onShown?: (pile: PileRecord, alarmsChanged: boolean) => void;
  /** A pile was removed. Must be quick. */
  readonly onGone?: (pile: PileRecord) => void;
}
