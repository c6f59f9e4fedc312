/** How old something is, as all pages and sentences count it. */
import { msPerDay, msPerHour, msPerMinute } from './units.ts';

interface Age {
  readonly count: number;
  readonly unit: 'minute' | 'hour' | 'day';
}

/**
 * One number and one unit, rounded down as people count: 119 min is "1 h"; days from 48 hours on.
 * @returns null for what is of just now: under a minute, or of a clock a little ahead.
 */
export function ageOf(ageMs: number): Age | null {
  if (ageMs < msPerMinute) return null;
  if (ageMs < msPerHour) return { count: Math.floor(ageMs / msPerMinute), unit: 'minute' };
  if (ageMs < 2 * msPerDay) return { count: Math.floor(ageMs / msPerHour), unit: 'hour' };
  return { count: Math.floor(ageMs / msPerDay), unit: 'day' };
}

/** A message takes some minutes to be read; what was due a moment ago is due now [ms]; our own choice, no source. */
export const overdueAfterMs = 10 * msPerMinute;
