/** Which reading jumped over the limit, and whether a person must look at it or the next reading will tell soon. */
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';
import type { PositionSight } from './finding.ts';

/**
 * The next reading is waited for where one comes about every hour or oftener, and for so long at least: nobody is sent out for less
 * [ms]; our own choice, no source.
 */
const oftenMs = 1.1 * msPerHour;
const leastWaitMs = 30 * msPerMinute;
/** It may come late by a quarter of the probe's interval, which is what clocks and gateways add [-]; our own choice, no source. */
const lateShare = 1.25;

export interface DoubtedHeat {
  readonly position: PilePosition;
  readonly tempC: number;
  readonly beforeC: number;
  readonly beforeMs: number;
  /** Nothing will settle it soon, or the reading that should have did not come. */
  readonly asksForPerson: boolean;
}

/** The hottest doubted reading over the limit; what a probe that speaks every few minutes settles by itself is left out until it is due. */
export function doubtedHeat(
  positions: Readonly<Record<PilePosition, PositionSight | null>>,
  actC: number,
  nowMs: number,
): DoubtedHeat | null {
  let hottest: DoubtedHeat | null = null;
  for (const position of pilePositions) {
    const sight = positions[position];
    if (sight?.doubted == null || sight.temperatureC === null || sight.temperatureAtMs === null) continue;
    const { temperatureC: beforeC, temperatureAtMs: beforeMs, everyMs } = sight;
    const tempC = sight.doubted.temperatureC;
    const isUp = tempC > actC && tempC > beforeC;
    const asksForPerson = nowMs - beforeMs >= waitOf(everyMs);
    if (!isUp || (!asksForPerson && everyMs <= leastWaitMs) || (hottest !== null && tempC <= hottest.tempC)) continue;
    hottest = { position, tempC, beforeC, beforeMs, asksForPerson };
  }
  return hottest;
}

/** Counted from the last reading that is believed, so that one doubted reading after another makes nobody wait longer. */
function waitOf(everyMs: number): number {
  return everyMs > 0 && everyMs <= oftenMs ? everyMs + Math.max(leastWaitMs, lateShare * everyMs) : 0;
}
