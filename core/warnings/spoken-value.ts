/**
 * How a temperature is spoken of: as of now, with its age once it is older than its probe's rhythm, or as doubted. An old value
 * is never spoken as the present one.
 */
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { duration } from '../words/words.ts';
import type { PositionSight } from './finding.ts';

/** Nothing is old within so long, and everything after so long, whatever the rhythm; our own proposal [ms]. */
const neverOldMs = 30 * msPerMinute;
const alwaysOldMs = 3 * msPerHour;
/** A reading may come late by half of its probe's interval. */
const lateShare = 1.5;

type Spoken = Pick<PositionSight, 'temperatureC' | 'temperatureAtMs' | 'everyMs' | 'doubted'>;

export function isOld({ temperatureAtMs, everyMs }: Spoken, nowMs: number): boolean {
  if (temperatureAtMs === null) return false;
  return nowMs - temperatureAtMs > Math.max(neverOldMs, Math.min(alwaysOldMs, lateShare * everyMs));
}

/**
 * Half a sentence, to stand after "It works: " or alone.
 * @example spokenValue('core', sight, nowMs, degrees) // => "the core is at 46 °C", "the core was at 46 °C 20 hours ago",
 * // "the core probe reads 70 °C, a jump from 46 °C"
 */
export function spokenValue(place: string, sight: Spoken, nowMs: number, temp: (tempC: number) => string): string {
  const { temperatureC, doubted } = sight;
  return doubted === null || temperatureC === null
    ? believedValue(place, sight, nowMs, temp)
    : `the ${place} probe reads ${temp(doubted.temperatureC)}, a jump from ${temp(temperatureC)}`;
}

/** Of the last that is believed; where a newer one is doubted, it is no longer the present. */
export function believedValue(place: string, sight: Spoken, nowMs: number, temp: (tempC: number) => string): string {
  const { temperatureC, temperatureAtMs, doubted } = sight;
  if (temperatureC === null || temperatureAtMs === null) return `the ${place} is not measured`;
  return doubted !== null || isOld(sight, nowMs)
    ? `the ${place} was at ${temp(temperatureC)} ${duration(nowMs - temperatureAtMs)} ago`
    : `the ${place} is at ${temp(temperatureC)}`;
}

/** @example capital("the core is at 46 °C") // => "The core is at 46 °C" */
export function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
