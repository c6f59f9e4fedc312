/** When a temperature is too old to be spoken as the present one: once it is older than its probe's rhythm. */
import { msPerHour, msPerMinute } from '../../shared/units.ts';
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
