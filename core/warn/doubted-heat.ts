/** Which reading jumped over the limit and is not settled soon by the next one. */
import { msPerMinute } from '../../shared/units.ts';
import type { PositionSight } from '../judge/assessment.ts';
import { type PilePosition, pilePositions } from '../judge/setup.ts';

/** The next reading is waited for where it should come within so long; our own proposal [ms]. */
export const waitedForMs = 30 * msPerMinute;

export interface DoubtedHeat {
  readonly position: PilePosition;
  readonly tempC: number;
  readonly beforeC: number;
  readonly beforeMs: number;
}

/** The hottest doubted reading over the limit that nothing will settle soon. */
export function doubtedHeat(
  positions: Readonly<Record<PilePosition, PositionSight | null>>,
  actC: number,
  nowMs: number,
): DoubtedHeat | null {
  let hottest: DoubtedHeat | null = null;
  for (const position of pilePositions) {
    const sight = positions[position];
    if (sight?.doubted == null || sight.temperatureC === null) continue;
    const { temperatureC: tempC, atMs } = sight.doubted;
    const isUp = tempC > actC && tempC > sight.temperatureC;
    const settlesSoon = sight.everyMs > 0 && sight.everyMs <= waitedForMs && nowMs - atMs < waitedForMs;
    if (!isUp || settlesSoon || (hottest !== null && tempC <= hottest.tempC)) continue;
    hottest = { position, tempC, beforeC: sight.temperatureC, beforeMs: sight.temperatureAtMs ?? atMs };
  }
  return hottest;
}
