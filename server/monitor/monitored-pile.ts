import type { WatchChange } from '../../shared/store/journal.ts';
import { Failing } from '../pile/failing.ts';
import type { OpenedPile } from '../pile/open-pile.ts';
import type { TroubleSeen } from '../pile/trouble-seen.ts';
import { nothingOwed } from '../pile/unkept.ts';
import type { OwnPile } from '../pile/watched-pile.ts';
import { type SummaryParts, summaryWithTrouble } from './summary-with-trouble.ts';

/** A pile with what the monitor remembers of it from one tick to the next. */
export interface MonitoredPile extends OpenedPile, OwnPile {
  /** Reading its records, then its readings; nothing is judged before both went well. */
  readonly opening: Failing;
  readonly evaluating: Failing;
  readonly keeping: Failing;
  /** [server time] */
  readonly openedAtMs: number;
  /** Its records could be read. */
  readonly isOpen: boolean;
  /** Its records changed: what was kept of its judge was made by the former ones, and its batch is judged from the start. */
  readonly isAnew: boolean;
  /** Its readings were read, up to now. */
  begun: boolean;
  /** [machine time] */
  evaluatedAtMs: number;
  /** When its checkpoint was last kept [machine time]. */
  keptAtMs: number;
  /** [server time] */
  bandAskedMs: number;
  bandIsNew: boolean;
  /** A reading for it was committed since it was evaluated. */
  news: boolean;
  /** What the journal could not take; it goes with the next change. */
  owed: WatchChange;
  /** Its checkpoint could not be kept, so the next one is due. */
  checkpointDue: boolean;
}

export interface MonitoredPileParts extends SummaryParts {
  /** The pile of this id as it stands now: it may have been read anew since it was handed out. */
  latest(pileId: string): MonitoredPile | undefined;
  troubleOf(pile: MonitoredPile): TroubleSeen | null;
}

export interface MonitoredPileStart {
  readonly opening: Failing;
  readonly isOpen: boolean;
  readonly isAnew: boolean;
  readonly owed?: WatchChange | undefined;
}

export function monitoredPile(
  parts: MonitoredPileParts,
  opened: OpenedPile,
  { opening, isOpen, isAnew, owed = nothingOwed }: MonitoredPileStart,
): MonitoredPile {
  const { id } = opened.pile;
  const watchNow = () => (parts.latest(id) ?? opened).watch;
  const pile: MonitoredPile = {
    ...opened,
    opening,
    evaluating: new Failing(),
    keeping: new Failing(),
    openedAtMs: parts.clock.nowMs(),
    isOpen,
    isAnew,
    begun: false,
    evaluatedAtMs: 0,
    keptAtMs: Date.now(),
    bandAskedMs: Number.NEGATIVE_INFINITY,
    bandIsNew: false,
    news: false,
    owed,
    checkpointDue: false,
    summary: () => {
      const now = parts.latest(id) ?? pile;
      return summaryWithTrouble(parts, now, parts.troubleOf(now));
    },
    openAlarms: () => [...watchNow().registry.open()].map(({ record }) => record.state),
    judged: async () => {
      const { assessment, band } = watchNow();
      return { assessment, band };
    },
  };
  return pile;
}

/** The clock was set: the pile, its checkpoint and its band are taken as never evaluated. */
export function evaluateAnew(pile: MonitoredPile): void {
  Object.assign(pile, {
    evaluatedAtMs: 0,
    keptAtMs: Date.now(),
    bandAskedMs: Number.NEGATIVE_INFINITY,
    news: true,
  } satisfies Partial<MonitoredPile>);
}
