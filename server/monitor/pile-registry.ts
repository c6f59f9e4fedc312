import type { AlarmRecord, ClaimRecord } from '../../shared/store/journal.ts';
import { pileSources, standbyAir } from '../pile/pile-sources.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';
import type { MonitoredPile } from './monitored-pile.ts';
import { routeReadings } from './route-readings.ts';

/** The piles watched here. Whoever is added hears its probes' readings from then on, until it is replaced or removed. */
export class PileRegistry {
  readonly #piles = new Map<string, MonitoredPile>();
  readonly #claimsOfSite = new Map<string, readonly ClaimRecord[]>();
  readonly #probes: ProbeBook;

  constructor(probes: ProbeBook) {
    this.#probes = probes;
  }

  get size(): number {
    return this.#piles.size;
  }

  all(): Iterable<MonitoredPile> {
    return this.#piles.values();
  }

  get(pileId: string): MonitoredPile | undefined {
    return this.#piles.get(pileId);
  }

  ofSite(siteId: string): MonitoredPile[] {
    return [...this.#piles.values()].filter(({ pile }) => pile.siteId === siteId);
  }

  /** Whether it was neither replaced nor removed. */
  isCurrent(pile: MonitoredPile): boolean {
    return this.#piles.get(pile.pile.id) === pile;
  }

  /** @param claimsOfSite Of the sites of these piles, all of each. */
  add(piles: readonly MonitoredPile[], claimsOfSite: ReadonlyMap<string, readonly ClaimRecord[]>): void {
    for (const [siteId, claims] of claimsOfSite) this.#claimsOfSite.set(siteId, claims);
    for (const one of piles) this.#piles.set(one.pile.id, one);
    for (const siteId of new Set(piles.map(({ pile }) => pile.siteId))) this.#route(siteId);
  }

  remove(piles: readonly MonitoredPile[]): void {
    for (const { pile } of piles) this.#piles.delete(pile.id);
    for (const siteId of new Set(piles.map(({ pile }) => pile.siteId))) this.#route(siteId);
  }

  /** Piles that lost or found the air of a neighbour: their sources are no longer what the claims say. */
  neighboursWithOtherSources({ pile }: MonitoredPile): MonitoredPile[] {
    const claims = this.#claimsOfSite.get(pile.siteId) ?? [];
    return this.ofSite(pile.siteId).filter((other) => {
      if (other.pile.id === pile.id) return false;
      const { id, siteId } = other.pile;
      const heard = [pileSources(claims, id, siteId), standbyAir(claims, id, siteId)];
      return JSON.stringify(heard) !== JSON.stringify([other.sources, other.standbys]);
    });
  }

  /** Asked of the watches: an alarm that could not be kept is in no journal. */
  withAlarm(alarmId: string): MonitoredPile | undefined {
    for (const one of this.#piles.values()) if (one.watch.registry.has(alarmId)) return one;
    return undefined;
  }

  /** Whether another warning explains this one just now; false for one that is not watched here. */
  isSuppressed(alarmId: string): boolean {
    for (const { watch } of this.#piles.values()) {
      for (const { record, suppressedBy } of watch.registry.open())
        if (record.id === alarmId) return suppressedBy !== null;
    }
    return false;
  }

  /** Alarms as they stand here and not yet in the journal. */
  unkeptAlarms(): AlarmRecord[] {
    return [...this.#piles.values()].flatMap(({ owed }) => owed.alarms);
  }

  #route(siteId: string): void {
    routeReadings(this.#probes, siteId, () => this.#piles.values(), markNews);
  }
}

function markNews(pile: MonitoredPile): void {
  pile.news = true;
}
