/** What the page knows of the server, and how each live event changes it. */
import { asksForSomebody } from '../../../../core/alarms/standing.ts';
import type { Health } from '../../../../shared/contracts/health.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import type { Probe, ProbeCounts } from '../../../../shared/contracts/probes.ts';
import type { Site } from '../../../../shared/contracts/sites.ts';
import type { Render } from '../../../../shared/messages/renderer.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { saidNow } from '../said-now.ts';
import { createStore } from '../store.ts';
import { textNow } from '../text-now.ts';
import type { ServerClock } from './server-clock.ts';

export interface Installation {
  /** live: events arrive. lost: they stopped, the page fetches instead. locked: a token is wanted. */
  readonly link: 'connecting' | 'live' | 'lost' | 'locked';
  /** The machine's time of the last change of `link` [epoch ms]. */
  readonly linkSinceMs: number;
  readonly clock: ServerClock | null;
  readonly health: Health | null;
  readonly sites: readonly Site[];
  /** Null until first fetched. */
  readonly piles: readonly PileSummary[] | null;
  /** Some of them, those in a pile first; the page of probes asks for what it shows. */
  readonly probes: readonly Probe[];
  readonly probeCounts: ProbeCounts;
  /** Grows with every word of a probe. */
  readonly probeNews: number;
  /** The last thing worth saying aloud. */
  readonly announcement: string;
}

const emptyInstallation: Installation = {
  link: 'connecting',
  linkSinceMs: 0,
  clock: null,
  health: null,
  sites: [],
  piles: null,
  probes: [],
  probeCounts: { all: 0, unclaimed: 0, isFull: false },
  probeNews: 0,
  announcement: '',
};

export const installation = createStore<Installation>(emptyInstallation);

export function changeInstallation(change: Partial<Installation>): void {
  installation.set({ ...installation.get(), ...change });
}

export function setLink(link: Installation['link'], machineNowMs: number): void {
  if (installation.get().link !== link) changeInstallation({ link, linkSinceMs: machineNowMs });
}

/** A pile seen anew takes the place of the one with its id, or joins at the end. */
export function withPile(piles: readonly PileSummary[], pile: PileSummary): PileSummary[] {
  return withItem(piles, pile, (item) => item.id === pile.id);
}

/** The list stays short, however many talk. */
const mostProbes = 50;

export function withProbe(probes: readonly Probe[], probe: Probe): readonly Probe[] {
  const isSame = (item: Probe) => item.site === probe.site && item.probe === probe.probe;
  return probes.length < mostProbes || probes.some(isSame) ? withItem(probes, probe, isSame) : probes;
}

function withItem<T>(items: readonly T[], item: T, isSame: (item: T) => boolean): T[] {
  return items.some(isSame) ? items.map((known) => (isSame(known) ? item : known)) : [...items, item];
}

/**
 * Warnings that stand now, did not stand before and are not explained by another: only these are said aloud.
 * @param render Of what a pile says; without it the server's own words stand.
 */
export function newWarnings(
  before: readonly PileSummary[] | null,
  after: readonly PileSummary[],
  render?: Render,
): string[] {
  if (before === null) return [];
  const known = new Set(before.flatMap((pile) => pile.alarms.map((alarm) => alarm.id)));
  return after.flatMap((pile) =>
    pile.alarms
      .filter((alarm) => asksForSomebody(alarm) && !known.has(alarm.id))
      .map((alarm) =>
        textNow('page-words.new-warning', {
          pileName: pile.name,
          warningText: warningTitle(alarm.kind, alarm.position),
          todoText: saidNow(alarm.todo, alarm.messages?.todo, render),
        }),
      ),
  );
}
