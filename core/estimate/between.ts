/**
 * What a position said in an hour that lies between two of its readings. A pile that is read seldom is followed hour by hour all the
 * same: each hour waits for the reading after it, and is taken off the straight line between the two.
 */
import { msPerHour } from '../../shared/units.ts';
import { lateDailyMs, silentAfterMs, type Track } from './track.ts';

/** Whoever speaks more seldom than this leaves hours without a word, though nothing is lost [ms]; our own choice, no source. */
const seldomMs = 1.35 * msPerHour;
/** A line is drawn over so many of a probe's own intervals, as one reading may be lost [-], and never over more than `lateDailyMs`; our own choice, no source. */
const bridgedIntervals = 2.2;
/** Over so long a line is drawn whatever the rhythm [ms]; our own choice, no source. */
const alwaysMs = 3.5 * msPerHour;

export function isSeldom({ intervalMs }: Track): boolean {
  return intervalMs > seldomMs;
}

/** So far apart two readings may lie and still tell of the time between them [ms]. */
export function bridgedMs({ intervalMs }: Track): number {
  return Math.max(alwaysMs, Math.min(lateDailyMs, bridgedIntervals * intervalMs));
}

/** Whether an hour is left open at `nowMs`, as the core's next reading will tell of it. */
export function isAwaited(core: Track | null, nowMs: number): boolean {
  if (core === null) return false;
  const sinceMs = nowMs - core.atMs;
  // Of one that has spoken once the rhythm is not known yet.
  const awaited = core.count === 1 ? sinceMs > seldomMs : isSeldom(core);
  return awaited && sinceMs <= Math.min(lateDailyMs, silentAfterMs(core));
}

/**
 * @param holds Whether its last word stands for the hours after it.
 * @returns The value in the middle of the hour that ends at `endMs`; null where no reading near enough tells of it.
 */
export function valueBetween(track: Track, endMs: number, holds: boolean): number | null {
  const { value, atMs, previous, previousAtMs } = track;
  const middleMs = endMs - msPerHour / 2;
  const furthest = bridgedMs(track);
  if (middleMs >= atMs) return (holds || endMs - msPerHour <= atMs) && middleMs - atMs <= furthest ? value : null;
  if (middleMs <= previousAtMs) return previousAtMs - middleMs <= furthest ? previous : null;
  if (atMs - previousAtMs > furthest) return null;
  return previous + ((value - previous) * (middleMs - previousAtMs)) / (atMs - previousAtMs);
}
