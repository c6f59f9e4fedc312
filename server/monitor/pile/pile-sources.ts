/**
 * Which probe served which position of a pile when. It never mixes two probes at one position and time: claims do not
 * overlap there.
 */
import type { JudgeReading } from '../../../core/profiles/pile-setup.ts';
import type { Position } from '../../../shared/names.ts';
import type { Quantity } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { ClaimRecord } from '../../../shared/store/journal.ts';
import type { SeriesRef } from '../../../shared/store/readings-store.ts';

export interface PileSource {
  readonly claim: ClaimRecord;
  readonly position: Position;
}

/**
 * The pile's own probes, and where it never had an air probe, those of its site.
 * @param claims All claims, ended ones included, oldest first.
 */
export function pileSources(claims: readonly ClaimRecord[], pileId: string, siteId: string): PileSource[] {
  const own = claims.filter((claim) => claim.pileId === pileId);
  const hasAir = own.some((claim) => claim.position === 'air');
  const lent = hasAir ? [] : claims.filter((claim) => claim.position === 'air' && claim.site === siteId);
  // One air is enough: the first that was claimed and still serves, else the first at all.
  const air = lent.find((claim) => claim.toMs === null) ?? lent[0];
  return [...own, ...(air ? [air] : [])].map((claim) => ({ claim, position: claim.position }));
}

export function sourceSeries(sources: readonly PileSource[], quantities: readonly Quantity[]): SeriesRef[] {
  const names = new Set(sources.map(({ claim }) => `${claim.site}/${claim.probe}`));
  return [...names].flatMap((name) => {
    const [site = '', probe = ''] = name.split('/');
    return quantities.map((quantity) => ({ site, probe, quantity }));
  });
}

/** What the judge hears of a reading; undefined when no claim covers it. */
export function judged(sources: readonly PileSource[], reading: Reading): JudgeReading | undefined {
  for (const { claim, position } of sources) {
    const covers =
      claim.probe === reading.probe &&
      claim.site === reading.site &&
      reading.atMs >= claim.fromMs &&
      (claim.toMs === null || reading.atMs < claim.toMs);
    if (covers) return { position, quantity: reading.quantity, value: reading.value, atMs: reading.atMs };
  }
  return undefined;
}
