/**
 * web/probes/probe-facts.ts: what a probe last said, as words.
 */
import type { Probe } from '../../../shared/api/probes.ts';
import { formatTemp, plainNumber, type TempUnit } from '../format/temperature.ts';

/** @example "41.2 °C, humidity 98 %" */
export function lastWords(last: Probe['last'], unit: TempUnit): string {
  const said = [
    last.temperatureC !== undefined && formatTemp(last.temperatureC, unit),
    last.humidityPct !== undefined && `humidity ${plainNumber(last.humidityPct, 0)} %`,
    last.moisturePct !== undefined && `moisture ${plainNumber(last.moisturePct, 0)} %`,
    last.co2Ppm !== undefined && `CO₂ ${plainNumber(last.co2Ppm, 0)} ppm`,
  ].filter((part) => part !== false);
  return said.length === 0 ? 'no reading yet' : said.join(', ');
}

/** Radio, battery and whether it is there at all. */
export function lineWords(probe: Probe): string[] {
  return [
    probe.online === null ? '' : probe.online ? 'online' : 'offline',
    probe.batteryV === null ? '' : `battery ${probe.batteryV.toFixed(2)} V`,
    probe.last.rssiDbm === undefined ? '' : `signal ${plainNumber(probe.last.rssiDbm, 0)} dBm`,
  ].filter((words) => words !== '');
}

/** Talking probes first, then by name. */
export function byNewest(one: Probe, other: Probe): number {
  return (other.lastAt ?? '').localeCompare(one.lastAt ?? '') || one.probe.localeCompare(other.probe);
}
