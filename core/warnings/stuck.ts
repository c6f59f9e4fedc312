/** When a repeated value is no longer honest. */
import { msPerHour } from '../../shared/units.ts';
import type { Track } from '../estimate/track.ts';

/** Longer than the 12 hours that were honest at a real heap (litter heap 2023, T10), with a margin [ms]. */
export const stuckAfterMs = 14 * msPerHour;

export function isStuck(track: Track): boolean {
  // Measured to the last believed reading: silence is not sameness.
  return track.count > 3 && track.atMs - track.sameSinceMs >= stuckAfterMs;
}
