/** Grows a scenario to many sites and piles, to load a server with. */
import type { Scenario } from './scenario-schema.ts';

/** Probes a farm may have at most; more would say nothing new. */
const mostProbes = 10_000;

/**
 * @param siteCount Sites wanted; the scenario's own number when left out.
 * @param pileCount Piles wanted over all sites; the scenario's own number per site when left out.
 * @throws {RangeError} If the farm would have more than `mostProbes` probes.
 */
export function manyPiles(scenario: Scenario, siteCount?: number, pileCount?: number): Scenario {
  if (siteCount === undefined && pileCount === undefined) return checked(scenario);
  const own = scenario.sites.length;
  const sites = siteCount ?? own;
  const ownPiles = scenario.sites.reduce((sum, site) => sum + site.piles.length, 0);
  const piles = pileCount ?? Math.round((ownPiles / own) * sites);
  const grown = Array.from({ length: sites }, (_, s) => {
    const site = scenario.sites[s % own];
    if (site === undefined) throw new RangeError('Cannot grow a scenario without sites');
    const share = Math.floor(((s + 1) * piles) / sites) - Math.floor((s * piles) / sites);
    return {
      ...site,
      name: s < own ? site.name : `${site.name}-${s + 1}`,
      piles: Array.from({ length: share }, (_, p) => {
        const pile = site.piles[p % site.piles.length];
        if (pile === undefined) throw new RangeError(`Cannot grow site ${site.name} without piles`);
        if (p < site.piles.length) return pile;
        const probes = pile.probes.map((probe) => ({ ...probe, name: `${probe.name}-${p + 1}` }));
        return { ...pile, name: `${pile.name} ${p + 1}`, probes };
      }),
    };
  });
  return checked({ ...scenario, sites: grown.filter((site) => site.piles.length > 0) });
}

function checked(scenario: Scenario): Scenario {
  const probes = scenario.sites.flatMap((site) => site.piles.flatMap((pile) => pile.probes)).length;
  if (probes > mostProbes) {
    throw new RangeError(
      `Cannot play a scenario as it must have at most ${mostProbes} probes: current value is ${probes}`,
    );
  }
  return scenario;
}
