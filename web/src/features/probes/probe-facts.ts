/** What a probe last said, as words. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import type { Probe, ProbeCounts } from '../../../../shared/contracts/probes.ts';
import { pileQuantities, probeQuantities, quantityFacts } from '../../../../shared/quantity.ts';
import { readingWords } from '../../ui/format/quantity-words.ts';
import type { TempUnit } from '../../ui/format/temperature.ts';
import type { ProbeWords } from './use-probe-words.ts';

/** @example "41.2 °C, humidity 98 %"; '' before its first reading */
export function lastWords(last: Probe['last'], unit: TempUnit): string {
  const said = pileQuantities.flatMap((quantity) => {
    const value = last[quantityFacts[quantity].key];
    return value === undefined ? [] : [readingWords(quantity, value, unit)];
  });
  return said.join(', ');
}

/** Radio, battery and whether it is there at all. */
export function lineWords(probe: Probe, { text }: Pick<ProbeWords, 'text'>): string[] {
  const values = { ...probe.last, ...(probe.batteryV !== null && { batteryV: probe.batteryV }) };
  const ofItself = probeQuantities.flatMap((quantity) => {
    const value = values[quantityFacts[quantity].key];
    return value === undefined ? [] : [readingWords(quantity, value, 'C')];
  });
  return probe.online === null ? ofItself : [text('page-probes.online', { isOnline: probe.online }), ...ofItself];
}

/** A probe is silent when its pile says so, or when the broker saw it leave. */
export function isSilent(probe: Probe, piles: readonly PileSummary[]): boolean {
  const { claim } = probe;
  const place = claim && piles.find((pile) => pile.id === claim.pileId)?.positions[claim.position];
  return place ? place.silent : probe.online === false;
}

/** @example "18 probes talk, 2 are silent and one belongs to no pile yet." */
export function probesSentence(
  { all, unclaimed }: Omit<ProbeCounts, 'isFull'>,
  piles: readonly PileSummary[],
  { text }: Pick<ProbeWords, 'text'>,
): string {
  const silent = piles.flatMap(({ positions }) => Object.values(positions)).filter((place) => place?.silent).length;
  const talking = Math.max(0, all - silent);
  const counts = { talkingCount: talking, silentCount: silent, unclaimedCount: unclaimed };
  if (all === 0) return text('page-probes.all.none');
  if (silent > 0 && unclaimed > 0) return text('page-probes.all.silent-and-unclaimed', counts);
  if (silent > 0) return text('page-probes.all.silent', counts);
  return unclaimed > 0 ? text('page-probes.all.unclaimed', counts) : text('page-probes.all', counts);
}
