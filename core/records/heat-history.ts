/**
 * What each place of a batch has been through, from its stored readings: believed and remembered as the judge does, so that a
 * record tells the same of it long after.
 */

import type { StageLimits } from '../../shared/stage.ts';
import { type HeatMemory, type PastHeat, pastHeat, rememberHeat, startHeat } from '../estimate/heat-memory.ts';
import { doubtedJumpK, followTrack, startTrack, type Track } from '../estimate/track.ts';
import type { Noted } from '../profiles/noted.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';

interface PlaceHistory {
  readonly track: Track;
  readonly heat: HeatMemory;
}

export interface HeatHistory {
  readonly limits: Pick<StageLimits, 'actC' | 'lossC'>;
  readonly noted: readonly Noted[];
  readonly places: Map<PilePosition, PlaceHistory>;
}

export function startHeatHistory(limits: HeatHistory['limits'], noted: readonly Noted[] = []): HeatHistory {
  return { limits, noted, places: new Map() };
}

/** Takes in one temperature; those of each place in order of time. */
export function followHeatHistory(
  { limits, noted, places }: HeatHistory,
  position: PilePosition,
  tempC: number,
  atMs: number,
): void {
  const place = places.get(position);
  if (place === undefined) places.set(position, { track: startTrack(tempC, atMs), heat: startHeat(tempC, atMs) });
  else if (followTrack(place.track, tempC, atMs, doubtedJumpK[position]))
    rememberHeat(place.heat, tempC, atMs, limits, noted);
}

export function historyAt({ noted, places }: HeatHistory, nowMs: number): PastHeat[] {
  return pilePositions.flatMap((position) => {
    const place = places.get(position);
    return place === undefined ? [] : [pastHeat(position, place.heat, nowMs, noted)];
  });
}
