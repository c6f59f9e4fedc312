/** Lengths of time in the words a person would use. */
import { ageOf, overdueAfterMs } from '../../../../shared/age.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../../../shared/units.ts';
import { textNow } from '../../data/text-now.ts';

/** One number and one unit, rounded down as people count: 119 min is "1 h". */
export function lengthWords(lengthMs: number): string {
  const length = Math.abs(lengthMs);
  const [unit, ofMs] =
    length < msPerMinute
      ? (['second', 1000] as const)
      : length < msPerHour
        ? (['minute', msPerMinute] as const)
        : length < 2 * msPerDay
          ? (['hour', msPerHour] as const)
          : (['other', msPerDay] as const);
  return textNow('page-words.length', { unit, lengthCount: Math.floor(length / ofMs) });
}

/** How long ago, by the rule of sentences (`ageOf`) in the short units of facts. */
export function ageWords(ageMs: number): string {
  return ageOf(ageMs) === null
    ? textNow('page-words.just-now')
    : textNow('page-words.ago', { lengthText: lengthWords(ageMs) });
}

/**
 * When something falls due.
 * @param timeText The clock's words for then.
 * @example dueSentence(90 * msPerMinute, '16:30') // => "By 16:30 (in 1 h)"
 * @example dueSentence(-2 * msPerHour, '16:30') // => "This was due 2 h ago, at 16:30"
 */
export function dueSentence(untilMs: number, timeText: string): string {
  const due = untilMs <= -overdueAfterMs ? 'passed' : untilMs < msPerMinute ? 'now' : 'other';
  return textNow('page-words.due', { due, lengthText: lengthWords(untilMs), timeText });
}

/** Which day of the batch it is, the day it was laid being day 1. */
export function batchDay(startedAtMs: number, nowMs: number): number {
  return Math.max(1, Math.floor((nowMs - startedAtMs) / msPerDay) + 1);
}
