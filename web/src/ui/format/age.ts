/** Lengths of time in the words a person would use. */
import { ageOf } from '../../../../shared/age.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../../../shared/units.ts';

/** One number and one unit, rounded down as people count: 119 min is "1 h". */
export function lengthWords(lengthMs: number): string {
  const length = Math.abs(lengthMs);
  if (length < msPerMinute) return `${Math.floor(length / 1000)} s`;
  if (length < msPerHour) return `${Math.floor(length / msPerMinute)} min`;
  if (length < 2 * msPerDay) return `${Math.floor(length / msPerHour)} h`;
  return `${Math.floor(length / msPerDay)} days`;
}

/** How long ago, by the rule of sentences (`ageOf`) in the short units of facts. */
export function ageWords(ageMs: number): string {
  return ageOf(ageMs) === null ? 'just now' : `${lengthWords(ageMs)} ago`;
}

/**
 * When something falls due.
 * @param time The clock's words for then.
 * @example dueSentence(90 * msPerMinute, '16:30') // => "By 16:30 (in 1 h)"
 * @example dueSentence(-2 * msPerHour, '16:30') // => "This was due 2 h ago, at 16:30"
 */
export function dueSentence(untilMs: number, time: string): string {
  if (untilMs <= -overdueAfterMs) return `This was due ${lengthWords(untilMs)} ago, at ${time}`;
  return untilMs < msPerMinute ? 'Now' : `By ${time} (in ${lengthWords(untilMs)})`;
}

/** What was due a moment ago is due now. */
const overdueAfterMs = 10 * msPerMinute;

/** Which day of the batch it is, the day it was laid being day 1. */
export function batchDay(startedAtMs: number, nowMs: number): number {
  return Math.max(1, Math.floor((nowMs - startedAtMs) / msPerDay) + 1);
}
