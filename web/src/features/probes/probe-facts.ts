/** What a probe last said, as words. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import type { Probe, ProbeCounts } from '../../../../shared/contracts/probes.ts';
import { pileQuantities, probeQuantities, quantityFacts } from '../../../../shared/quantity.ts';
import { readingWords } from '../../ui/format/quantity-words.ts';
import type { TempUnit } from '../../ui/format/temperature.ts';
import { capital, countWord } from '../../ui/format/words.ts';

/** @example "41.2 °C, humidity 98 %" */
export function lastWords(last: Probe['last'], unit: TempUnit): string {
  const said = pileQuantities.flatMap((quantity) => {
    const value = last[quantityFacts[quantity].key];
    return value === undefined ? [] : [readingWords(quantity, value, unit)];
  });
  return said.length === 0 ? 'no reading yet' : said.join(', ');
}

/** Radio, battery and whether it is there at all. */
export function lineWords(probe: Probe): string[] {
  const values = { ...probe.last, ...(probe.batteryV !== null && { batteryV: probe.batteryV }) };
  const ofItself = probeQuantities.flatMap((quantity) => {
    const value = values[quantityFacts[quantity].key];
    return value === undefined ? [] : [readingWords(quantity, value, 'C')];
  });
  return probe.online === null ? ofItself : [probe.online ? 'online' : 'offline', ...ofItself];
}

/** A probe is silent when its pile says so, or when the broker saw it leave. */
export function isSilent(probe: Probe, piles: readonly PileSummary[]): boolean {
  const { claim } = probe;
  const place = claim && piles.find((pile) => pile.id === claim.pileId)?.positions[claim.position];
  return place ? place.silent : probe.online === false;
}

/** @example "18 probes talk, 2 are silent, and one belongs to no pile yet." */
export function probesSentence({ all, unclaimed }: Omit<ProbeCounts, 'isFull'>, piles: readonly PileSummary[]): string {
  const silent = piles.flatMap(({ positions }) => Object.values(positions)).filter((place) => place?.silent).length;
  const talking = Math.max(0, all - silent);
  if (all === 0) return 'No probe has talked yet.';
  const say = (count: number, one: string, many: string) => `${countWord(count)} ${count === 1 ? one : many}`;
  const parts = [
    say(talking, 'probe talks', 'probes talk'),
    ...(silent > 0 ? [say(silent, 'is silent', 'are silent')] : []),
    ...(unclaimed > 0 ? [say(unclaimed, 'belongs to no pile yet', 'belong to no pile yet')] : []),
  ];
  const last = parts.pop() ?? '';
  return `${capital(parts.length === 0 ? last : `${parts.join(', ')} and ${last}`)}.`;
}
