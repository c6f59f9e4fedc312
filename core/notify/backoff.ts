/** When to try again, and when to give up. */
import { msPerHour, msPerMinute } from '../../shared/units.ts';

/**
 * Pause after the first failure, and the longest [ms]: a line that drops is soon back, and a mail server that greylists asks for
 * some minutes; our own choice, no source.
 */
const firstMs = 5_000;
const longestMs = 15 * msPerMinute;
/** A warning that is older than this helps nobody as a new message [ms]; our own choice, no source. */
export const giveUpAfterMs = 6 * msPerHour;
/**
 * Failed attempts after which another channel or another person is asked, while this one goes on: half a minute at most [-]; our own
 * choice, no source.
 */
export const troubleAfterTries = 3;

/**
 * Doubles from 5 s to a quarter of an hour; half of each pause is left to chance, so that many messages which failed
 * together do not come back together.
 * @param tries Attempts so far, at least 1.
 * @param random In [0, 1).
 */
export function pauseMs(tries: number, random: number): number {
  const wholeMs = Math.min(longestMs, firstMs * 2 ** Math.min(30, tries - 1));
  return Math.round(wholeMs / 2 + (wholeMs / 2) * random);
}

export function isPast(sinceMs: number, nowMs: number): boolean {
  return nowMs - sinceMs >= giveUpAfterMs;
}
