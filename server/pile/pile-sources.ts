/**
 * Which probe served which position of a pile when. It never mixes two probes at one position and time: claims do not
 * overlap there.
 */
import type { JudgeReading, Standby } from '../../core/profiles/pile-setup.ts';
import { handClaimEndMs, isHandProbe } from '../../shared/hand-series.ts';
import type { Position } from '../../shared/names.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ClaimRecord } from '../../shared/store/journal.ts';
import type { SeriesRef } from '../../shared/store/readings-store.ts';

export interface PileSource {
  readonly claim: ClaimRecord;
  readonly position: Position;
  /** Of the air of a neighbour that is only gone by while no better one speaks. */
  readonly standby?: Standby;
}

/**
 * The pile's own probes, the air of its site from when it has no air probe of its own any more, and where and while no probe
 * serves a place what was measured there by hand.
 * @param claims All claims, ended ones included, oldest first.
 */
export function pileSources(claims: readonly ClaimRecord[], pileId: string, siteId: string): PileSource[] {
  const probes = claims.filter(({ probe }) => !isHandProbe(probe));
  const own = probes.filter((claim) => claim.pileId === pileId);
  const air = airOfSite(probes, own, siteId);
  const serving = [...own, ...(air ? [air] : [])].map((claim) => ({ claim, position: claim.position }));
  return [...serving, ...handSources(claims, pileId).flatMap((hand) => whileNoProbe(hand, serving))];
}

/** One air is enough: the first of a neighbour that was claimed and still serves, else the first at all. */
function airOfSite(
  probes: readonly ClaimRecord[],
  own: readonly ClaimRecord[],
  siteId: string,
): ClaimRecord | undefined {
  const ownAir = own.filter((claim) => claim.position === 'air');
  if (ownAir.some((claim) => claim.toMs === null)) return undefined;
  const ofOthers = probes.filter((one) => one.position === 'air' && one.site === siteId && !own.includes(one));
  const air = ofOthers.find((claim) => claim.toMs === null) ?? ofOthers[0];
  if (air === undefined) return undefined;
  const fromMs = Math.max(air.fromMs, ...ownAir.map((claim) => claim.toMs ?? 0));
  return air.toMs !== null && air.toMs <= fromMs ? undefined : { ...air, fromMs };
}

/** Two neighbours whose air stands by for when the probe that a pile goes by falls silent: those that have served the longest. */
export function standbyAir(claims: readonly ClaimRecord[], pileId: string, siteId: string): PileSource[] {
  const goneBy = pileSources(claims, pileId, siteId).find(
    ({ claim, position }) => position === 'air' && claim.toMs === null,
  );
  const others = claims.filter(
    ({ probe, position, site, toMs, pileId: of }) =>
      position === 'air' &&
      toMs === null &&
      site === siteId &&
      of !== pileId &&
      !isHandProbe(probe) &&
      probe !== goneBy?.claim.probe,
  );
  const [first, second] = others;
  return [
    ...(first ? [{ claim: first, position: first.position, standby: 0 } as const] : []),
    ...(second ? [{ claim: second, position: second.position, standby: 1 } as const] : []),
  ];
}

/** Of what is measured by hand at a pile, all of it: also while a probe served the same place. */
export function handSources(claims: readonly ClaimRecord[], pileId: string): PileSource[] {
  return claims
    .filter((claim) => claim.pileId === pileId && isHandProbe(claim.probe))
    .map((claim) => ({ claim, position: claim.position }));
}

/** A hand stands for a place as long as no probe does. */
function whileNoProbe({ claim, position }: PileSource, serving: readonly PileSource[]): PileSource[] {
  const taken = serving.filter((one) => one.position === position).map((one) => one.claim);
  const gaps: PileSource[] = [];
  let fromMs = claim.fromMs;
  for (const probe of taken.sort((one, other) => one.fromMs - other.fromMs)) {
    if (probe.fromMs > fromMs) gaps.push({ claim: { ...claim, fromMs, toMs: probe.fromMs }, position });
    fromMs = Math.max(fromMs, probe.toMs ?? handClaimEndMs);
  }
  if (fromMs < handClaimEndMs) gaps.push({ claim: { ...claim, fromMs }, position });
  return gaps;
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
  for (const { claim, position, standby } of sources) {
    const covers =
      claim.probe === reading.probe &&
      claim.site === reading.site &&
      reading.atMs >= claim.fromMs &&
      (claim.toMs === null || reading.atMs < claim.toMs);
    if (!covers) continue;
    const { quantity, value, atMs } = reading;
    const how = { ...(isHandProbe(claim.probe) && { byHand: true }), ...(standby !== undefined && { standby }) };
    return { position, quantity, value, atMs, ...how };
  }
  return undefined;
}
