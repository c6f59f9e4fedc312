/** How often each position of a pile is heard from. */
import { type Position, positions } from '../../shared/names.ts';
import { leadingTrack, servedPosition } from '../estimate/position.ts';
import type { JudgeState } from '../estimate/state.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';

export interface PositionRhythm {
  readonly position: Position;
  readonly heardAtMs: number;
  /** Its usual interval; 0 while unknown. */
  readonly intervalMs: number;
}

export function rhythmsOf(state: JudgeState, setup: PileSetup): PositionRhythm[] {
  return positions.flatMap((position) => {
    const followed = servedPosition(state.positions, setup, position);
    const track = followed === null ? null : leadingTrack(followed);
    return track === null ? [] : [{ position, heardAtMs: track.heardAtMs, intervalMs: track.intervalMs }];
  });
}
