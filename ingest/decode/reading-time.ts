/**
 * When a reading was measured, or why that cannot be known. It never dates a message that lay in the broker by its
 * arrival.
 */

import { clockAheadMs } from '../../shared/clock-ahead.ts';
import { parseInstant } from '../../shared/contracts/time.ts';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { msPerMinute } from '../../shared/units.ts';
import { type Arrival, foundSaid, type Where, whereSaid } from './decoded.ts';

/** 2000-01-01: a probe whose clock was never set counts from 1970 (or from its own start). */
const earliestMs = 946_684_800_000;

/** `time` of a JSON object or of a mapped message; absent = time of arrival. */
export function readingTimeMs(
  time: string | number | undefined,
  arrival: Arrival,
  where: Where,
): number | ReadingError {
  if (time === undefined) return arrivalTimeMs(arrival, where);
  const atMs = parseInstant(time);
  if (atMs === undefined) {
    return new ReadingError(
      'bad-time',
      message('refusal.time.form', {
        wherePart: whereSaid(where),
        exampleText: '2031-04-05T06:07:08Z',
        foundPart: foundSaid(time),
      }),
    );
  }
  return checkedTime(atMs, arrival, where, time);
}

export function arrivalTimeMs(arrival: Arrival, where: Where): number | ReadingError {
  if (!arrival.retained) return arrival.nowMs;
  return new ReadingError('missing-field', message('refusal.time.retained', { wherePart: whereSaid(where) }));
}

/** @param found The time as it stood, for the sentence. */
export function checkedTime(atMs: number, arrival: Arrival, where: Where, found: unknown): number | ReadingError {
  if (atMs > arrival.nowMs + clockAheadMs) {
    return new ReadingError(
      'future-time',
      message('refusal.time.future', {
        wherePart: whereSaid(where),
        aheadMinutesCount: clockAheadMs / msPerMinute,
        foundPart: foundSaid(found),
        foundAheadCount: Math.round((atMs - arrival.nowMs) / 1000),
      }),
    );
  }
  if (atMs >= earliestMs) return atMs; // so that NaN is refused too
  return new ReadingError(
    'bad-time',
    message('refusal.time.early', { wherePart: whereSaid(where), foundPart: foundSaid(found) }),
  );
}
