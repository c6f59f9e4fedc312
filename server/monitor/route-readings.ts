/**
 * Which piles hear a probe's readings as they are committed.
 */
import { isOfPile } from '../../shared/quantity.ts';
import { judged } from '../pile/pile-sources.ts';
import type { OwnPile } from '../pile/watched-pile.ts';
import type { KnownProbe, ProbeBook } from '../services/probes/probe-book.ts';

/** Tells each probe that the piles of a site hear which piles hear it: a probe may serve a pile of another site. */
export function routeReadings<Pile extends OwnPile>(
  probes: ProbeBook,
  siteId: string,
  piles: () => Iterable<Pile>,
  heardSomething: (pile: Pile) => void,
): void {
  const sites = new Set([siteId]);
  for (const { pile, sources } of piles()) {
    if (pile.siteId === siteId) for (const { claim } of sources) sites.add(claim.site);
  }
  const listeners = new Map<KnownProbe, KnownProbe['listeners'][number][]>();
  for (const one of piles()) {
    const heardOf = [...one.sources, ...one.standbys];
    for (const { claim, standby } of heardOf) {
      if (claim.toMs !== null || !sites.has(claim.site)) continue;
      const known = probes.of(claim.site, claim.probe);
      const heard = listeners.get(known) ?? [];
      listeners.set(known, heard);
      heard.push((reading) => {
        if (!isOfPile(reading.quantity)) return;
        const heardReading = judged(heardOf, reading);
        if (heardReading) one.watch.receive(heardReading);
        // What stands by is judged with the next reading of the pile.
        if (standby === undefined) heardSomething(one);
      });
    }
  }
  for (const known of probes.all()) {
    if (sites.has(known.site)) known.listeners = listeners.get(known) ?? [];
  }
}
