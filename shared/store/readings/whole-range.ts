/** What every readings store checks of a question or a reading before it works. */
import type { Reading } from '../../reading.ts';
import type { BucketColumns } from '../readings-store.ts';

/** @throws {RangeError} when an end is no number. */
export function wholeRange(fromMs: number, toMs: number): [fromMs: number, toMs: number] {
  if (Number.isNaN(fromMs) || Number.isNaN(toMs)) {
    throw new RangeError(
      `Cannot read a range of time as both ends must be numbers: current value is ${fromMs}..${toMs}`,
    );
  }
  // Readings stand at whole milliseconds, from 0 on.
  const whole = (timeMs: number) => Math.min(Math.max(0, Math.ceil(timeMs)), Number.MAX_SAFE_INTEGER);
  return [whole(fromMs), whole(toMs)];
}

export function mustBeWhole(name: string, value: number, least: number): void {
  if (!Number.isSafeInteger(value) || value < least) {
    throw new RangeError(
      `Cannot read readings as ${name} must be a whole number from ${least} on: current value is ${value}`,
    );
  }
}

/** @throws {RangeError} when it is not a finite number at a whole time from 0 through `latestMs`. */
export function mustBeKeepable({ atMs, value }: Reading, latestMs = Number.MAX_SAFE_INTEGER): void {
  if (!Number.isSafeInteger(atMs) || atMs < 0) {
    throw new RangeError(`Cannot keep a reading as atMs must be a whole number from 0 on: current value is ${atMs}`);
  }
  if (atMs > latestMs) {
    throw new RangeError(`Cannot keep a reading as atMs must be ${latestMs} or earlier here: current value is ${atMs}`);
  }
  if (!Number.isFinite(value)) {
    throw new RangeError(`Cannot keep a reading as its value must be a finite number: current value is ${value}`);
  }
}

export function noBuckets(): BucketColumns {
  const none = new Float64Array(0);
  return { startMs: none, min: none, mean: none, max: none, count: none };
}
