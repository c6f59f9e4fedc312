/**
 * core/judge/rhythms.ts: how often each place of a pile is heard from.
 *
 * Takes:  the judge as last left.
 * Gives:  one row per place that ever had a probe.
 */
import { type Position, positions } from '../../shared/names.ts';
import { leadingTrack } from '../warn/look.ts';
import type { JudgeState } from './state.ts';

export interface PlaceRhythm {
  readonly position: Position;
  readonly heardAtMs: number;
  /** Its usual interval; 0 while unknown. */
  readonly intervalMs: number;
}

export function rhythmsOf(state: JudgeState): PlaceRhythm[] {
  return positions.flatMap((position) => {
    const place = state.positions[position];
    const track = place === null ? null : leadingTrack(place);
    return track === null ? [] : [{ position, heardAtMs: track.heardAtMs, intervalMs: track.intervalMs }];
  });
}
