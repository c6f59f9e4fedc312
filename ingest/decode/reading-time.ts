/**
 * When a reading was measured, or why that cannot be known. It never dates a message that lay in the broker by its
 * arrival.
 */
import { parseInstant } from '../../shared/contracts/time.ts';
import { ReadingError } from '../../shared/errors.ts';
import { msPerMinute } from '../../shared/units.ts';
import { type Arrival, shown } from './decoded.ts';

/** Clocks of probes drift; what is further ahead than this would hide later readings. */
const futureToleranceMs = 5 * msPerMinute;

/** 2000-01-01: a probe whose clock was never set counts from 1970 (or from its own start). */
const earliestMs = 946_684_800_000;

/** `time` of a JSON object or of a mapped message; absent = time of arrival. */
export function readingTimeMs(
  time: string | number | undefined,
  arrival: Arrival,
  where: string,
): number | ReadingError {
  if (time === undefined) return arrivalTimeMs(arrival, where);
  const atMs = parseInstant(time);
  if (atMs === undefined) {
    return new ReadingError(
      'bad-time',
      `Cannot date the reading as ${where} must be an RFC 3339 time such as 2031-04-05T06:07:08Z, or epoch seconds or milliseconds: found ${shown(time)}`,
    );
  }
  return checkedTime(atMs, arrival, where, time);
}

export function arrivalTimeMs(arrival: Arrival, where: string): number | ReadingError {
  if (!arrival.retained) return arrival.nowMs;
  return new ReadingError(
    'missing-field',
    `Cannot date a retained reading by its arrival as it lay in the broker: it must carry its own time at ${where}, found nothing`,
  );
}

/** @param found The time as it stood, for the sentence. */
export function checkedTime(atMs: number, arrival: Arrival, where: string, found: unknown): number | ReadingError {
  if (atMs > arrival.nowMs + futureToleranceMs) {
    return new ReadingError(
      'future-time',
      `Cannot accept a reading from the future as ${where} must be at most 5 minutes ahead of this clock: found ${shown(found)}, ${Math.round((atMs - arrival.nowMs) / 1000)} s ahead`,
    );
  }
  if (atMs >= earliestMs) return atMs; // so that NaN is refused too
  return new ReadingError(
    'bad-time',
    `Cannot date the reading as ${where} must be after the year 1999: found ${shown(found)} (a probe's clock that was never set counts from 1970)`,
  );
}
