/**
 * What each position of a batch has been through, from its stored readings: believed and remembered as the judge does, so that a
 * record tells the same of it long after.
 */

import type { StageLimits } from '../../shared/stage.ts';
import { type HeatMemory, type PastHeat, pastHeat, rememberHeat, startHeat } from '../estimate/heat-memory.ts';
import { doubtedJumpK, followTrack, startTrack, type Track } from '../estimate/track.ts';
import type { Noted } from '../profiles/noted.ts';
import { type PilePosition, pilePositions } from '../profiles/pile-setup.ts';

interface PositionHistory {
  readonly track: Track;
  readonly heat: HeatMemory;
}

export interface HeatHistory {
  readonly limits: Pick<StageLimits, 'actC' | 'lossC'>;
  readonly noted: readonly Noted[];
  readonly positions: Map<PilePosition, PositionHistory>;
}

export function startHeatHistory(limits: HeatHistory['limits'], noted: readonly Noted[] = []): HeatHistory {
  return { limits, noted, positions: new Map() };
}

/** Takes in one temperature; those of each position in order of time. */
export function followHeatHistory(
  { limits, noted, positions }: HeatHistory,
  position: PilePosition,
  tempC: number,
  atMs: number,
): void {
  const followed = positions.get(position);
  if (followed === undefined) positions.set(position, { track: startTrack(tempC, atMs), heat: startHeat(tempC, atMs) });
  else if (followTrack(followed.track, tempC, atMs, doubtedJumpK[position]))
    rememberHeat(followed.heat, tempC, atMs, limits, noted);
}

export function historyAt({ noted, positions }: HeatHistory, nowMs: number): PastHeat[] {
  return pilePositions.flatMap((position) => {
    const followed = positions.get(position);
    return followed === undefined ? [] : [pastHeat(position, followed.heat, nowMs, noted)];
  });
}
