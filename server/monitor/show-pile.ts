import type { Lease, PileRecord } from '../../shared/store/journal.ts';
import type { OwnPile } from '../pile/watched-pile.ts';
import type { LiveHub } from '../services/live/live-hub.ts';
import type { MonitoredPile } from './monitored-pile.ts';
import type { SiteLeases } from './site-leases.ts';

/** What a monitor that shares the piles with other processes tells its worker. */
export interface SharedWatch {
  /** A pile was evaluated: whether its expected band is another, and whether an alarm changed. */
  looked(one: OwnPile, lease: Lease, what: { readonly course: boolean; readonly alarms: boolean }): void;
  /** The journal refused: the site is another's by now. */
  lost(lease: Lease): void;
}

export interface ShowPileParts {
  readonly hub: LiveHub;
  readonly leases: SiteLeases;
  readonly shared?: SharedWatch | undefined;
  readonly onShown?: ((pile: PileRecord, alarmsChanged: boolean) => void) | undefined;
}

/** To open pages, and to processes that show it. */
export function showPile(
  { hub, leases, shared, onShown }: ShowPileParts,
  pile: MonitoredPile,
  alarmsChanged: boolean,
): void {
  hub.publishLater('pile', pile.pile.id, () => pile.summary());
  onShown?.(pile.pile, alarmsChanged);
  const lease = leases.of(pile.pile.siteId);
  if (!shared || !lease) return;
  shared.looked(pile, lease, { course: pile.bandIsNew, alarms: alarmsChanged });
  pile.bandIsNew = false;
}
