/**
 * Which claims a site's piles have to do with: those of its probes, and those of its piles.
 *
 * A probe may serve a pile of another site, when what it sends names the place of its gateway.
 */
import type { ClaimRecord, PileRecord } from '../../shared/store/journal.ts';

/** @param claims Oldest first; they keep that order within each site. */
export function claimsBySite(
  claims: readonly ClaimRecord[],
  piles: readonly PileRecord[],
): ReadonlyMap<string, readonly ClaimRecord[]> {
  const siteOf = new Map(piles.map((pile) => [pile.id, pile.siteId]));
  const bySite = new Map<string, ClaimRecord[]>();
  for (const claim of claims) {
    for (const site of new Set([claim.site, siteOf.get(claim.pileId) ?? claim.site])) {
      const group = bySite.get(site);
      if (group) group.push(claim);
      else bySite.set(site, [claim]);
    }
  }
  return bySite;
}
