import { isSeldom } from './between.ts';
import { isByHand } from './hand-reading.ts';
import { fellToAir } from './out-of-pile.ts';
import type { Positions } from './position.ts';
import { isStuck } from './stuck.ts';

/**
 * A core that was warm and now reads like the air may have been pulled out. Until that is known it is not believed, so that it
 * cannot clear an alarm in the meantime.
 */
export function maybeOut({ core, air }: Readonly<Positions>): boolean {
  if (core?.temperature == null || air?.temperature == null || core.hour.meanC === null || isByHand(core)) return false;
  if (core.out.suspectH > 0 && core.out.nearAirH > 0) return true;
  // What it may have done by itself over hours is no sign of a hand.
  if (isSeldom(core.temperature)) return false;
  return fellToAir(core.hour.meanC - air.temperature.value, core.temperature.value - air.temperature.value);
}

/**
 * A probe that lies beside the pile says nothing of it. One that repeats itself is left out where another can stand for it; the
 * core's own last word is kept, for a notebook of whole degrees repeats itself as well.
 */
export function believed(
  positions: Readonly<Positions>,
  position: 'core' | 'top' | 'base' | 'air',
  meanC: number | null,
): number | null {
  const followed = positions[position];
  if (followed?.temperature == null || followed.out.sinceMs !== null) return null;
  if (position === 'core') return maybeOut(positions) ? null : meanC;
  return isStuck(followed.temperature, position) && !isByHand(followed) ? null : meanC;
}
