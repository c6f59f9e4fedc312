/** When a temperature is too old to be spoken as the present one: once it is older than its probe's rhythm, and always where it is read seldom. */
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import type { PositionSight } from './finding.ts';

/**
 * Nothing is old within so long, and everything after so long, whatever the rhythm: a core moves little in the one and may pass its
 * limit in the other [ms]; our own choice, no source.
 */
const neverOldMs = 30 * msPerMinute;
const alwaysOldMs = 3 * msPerHour;
/** A reading may come late by half of its probe's interval [-]; our own choice, no source. */
const lateShare = 1.5;

type Spoken = Pick<PositionSight, 'temperatureC' | 'temperatureAtMs' | 'everyMs' | 'doubted' | 'byHand'>;

/** What is read more seldom than this, or by hand, is never the present: it is said with its age from the first minute on; our own proposal [ms]. */
const seldomMs = 2 * msPerHour;

/** Whether it is spoken of as of then, with its age. A pile that is read seldom does not change its words between two readings. */
export function isOld(sight: Spoken, nowMs: number): boolean {
  return sight.temperatureAtMs !== null && (isSeldom(sight) || isStale(sight, nowMs));
}

/** Whether so much may have changed since that a person is asked to measure anew. */
export function isStale(sight: Spoken, nowMs: number): boolean {
  const { temperatureAtMs, everyMs } = sight;
  if (temperatureAtMs === null) return false;
  const rhythmMs = isSeldom(sight) ? alwaysOldMs : lateShare * everyMs;
  return nowMs - temperatureAtMs > Math.max(neverOldMs, Math.min(alwaysOldMs, rhythmMs));
}

const isSeldom = ({ everyMs, byHand }: Spoken): boolean => byHand === true || everyMs > seldomMs;
