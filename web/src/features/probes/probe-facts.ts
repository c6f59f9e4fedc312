/** What a probe last said, as words. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import type { Probe, ProbeCounts } from '../../../../shared/contracts/probes.ts';
import { formatTemp, plainNumber, type TempUnit } from '../../ui/format/temperature.ts';
import { capital, countWord } from '../../ui/format/words.ts';
import { humidityWords, soilProbeWords } from '../../ui/mound/mound-facts.ts';

/** @example "41.2 °C, humidity 98 %" */
export function lastWords(last: Probe['last'], unit: TempUnit): string {
  const said = [
    last.temperatureC !== undefined && formatTemp(last.temperatureC, unit),
    last.humidityPct !== undefined && humidityWords(last.humidityPct),
    last.moisturePct !== undefined && soilProbeWords(last.moisturePct),
    last.co2Ppm !== undefined && `CO₂ ${plainNumber(last.co2Ppm, 0)}\u00a0ppm`,
  ].filter((part) => part !== false);
  return said.length === 0 ? 'no reading yet' : said.join(', ');
}

/** Radio, battery and whether it is there at all. */
export function lineWords(probe: Probe): string[] {
  return [
    probe.online === null ? '' : probe.online ? 'online' : 'offline',
    probe.batteryV === null ? '' : `battery ${probe.batteryV.toFixed(2)}\u00a0V`,
    probe.last.rssiDbm === undefined ? '' : `signal ${plainNumber(probe.last.rssiDbm, 0)}\u00a0dBm`,
  ].filter((words) => words !== '');
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
