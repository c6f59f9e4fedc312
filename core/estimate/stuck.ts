/** When a repeated value is no longer honest. */
import type { Position } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import { stepOf, type Track } from './track.ts';

/** Longer than the 12 hours that were honest at a real heap (litter heap 2023, T10), with a margin [ms]. */
const stuckAfterMs = 14 * msPerHour;
/** At this step or a finer one; a coarser one hides as much more [K]; our own choice, no source. */
const fineStepK = 0.1;
/**
 * At this step and coarser the foot of that heap said one half degree for 17 days, and was right; its core, top and air moved within
 * 40 h [K]. Read seldom, they came back to where they had been between two readings [ms].
 */
export const coarseStepK = 0.25;
const seldomMs = 2 * msPerHour;
/**
 * A chip that is read seldom says the same sixteenth by chance, at most 28 times in 100 where nothing moves (0.06 K of noise): eight in
 * a row once in 7,000 [readings, -].
 */
const repeatsAtRest = 8;
const mostlySame = 0.28;
const byChance = 1 / 7000;
/**
 * As much more seldom the further it moves from reading to reading: of a normal distribution that share of one step over the mean
 * distance lies within a step around its middle [-]. What moved may rest, but hardly for a day, nor at so many readings; our own
 * choice, no source.
 */
const shareOfStep = 0.318;
const restsMs = 23 * msPerHour;
const fewestRepeats = 5;

/** Whether so many readings in a row that say the same are no chance. */
function isNoChance(track: Track): boolean {
  if (track.sameCount >= repeatsAtRest) return true;
  if (track.atMs - track.sameSinceMs < restsMs) return false;
  const same = Math.min(mostlySame, (shareOfStep * stepOf(track)) / track.moves);
  return track.sameCount >= 1 + Math.log(byChance) / Math.log(same);
}

/** How long a position may say the same; infinite where that tells nothing [ms]. */
export function stuckAfter(track: Track, position: Position): number {
  const stepK = stepOf(track);
  if (stepK >= coarseStepK && (position === 'base' || track.intervalMs > seldomMs)) return Number.POSITIVE_INFINITY;
  return stuckAfterMs * Math.max(1, stepK / fineStepK);
}

export function isStuck(track: Track, position: Position): boolean {
  // Most looks. Measured to the last believed reading: silence is not sameness.
  if (track.sameCount < fewestRepeats || track.atMs - track.sameSinceMs < stuckAfterMs) return false;
  return isNoChance(track) && track.atMs - track.sameSinceMs >= stuckAfter(track, position);
}
