/**
 * core/warn/stall-sight.ts: whether one hour looks like a stall.
 *
 * Takes:  the state, the band at the hour's end, the core and its excess over the day's air.
 * Gives:  why it looks like one, or undefined.
 * Never:  calls a natural dip, a planned airing or the end of a batch a stall.
 */
import { msPerHour } from '../../shared/units.ts';
import type { BandPoint } from '../curve/band.ts';
import type { PileSetup } from '../judge/setup.ts';
import { coreAtHour, type JudgeState, type StallWhy } from '../judge/state.ts';
import { progressPct } from '../score/progress.ts';

/** Hours in a row that make it a stall; our own, so that a cold night does not. */
export const stallAfterH = 6;
/** After an act a heap is given this long to warm again [h]. */
const actExplainsH = 18;
/** From this share of its work on, a fall is the end of the batch, not a stall [%]. */
const nearlyDonePct = 75;

export function stallSight(
  state: JudgeState,
  setup: PileSetup,
  expected: BandPoint | undefined,
  core: number,
  excessK: number,
  endMs: number,
): StallWhy | undefined {
  // A stall that stands is not talked away by the little work a cool heap still does.
  const standing = state.stallH >= stallAfterH;
  if (!standing && progressPct(state.activityH, setup.stage) >= nearlyDonePct) return undefined;
  if (state.disturbedAtMs !== null && endMs - state.disturbedAtMs < actExplainsH * msPerHour) return undefined;
  const ageH = (endMs - setup.startedAtMs) / msPerHour;
  const rise6K = core - (coreAtHour(state, state.hoursDone - 7) ?? core);
  const rise12K = core - (coreAtHour(state, state.hoursDone - 13) ?? core);
  if (rise6K >= 1 || rise12K >= 2) return undefined; // it is on its way

  const wanted = setup.stage === 'soil' ? 3 : 6;
  const byH = setup.stage === 'soil' ? 36 : 48;
  if (ageH >= byH && state.peakExcessK < wanted) return 'never-warmed';
  // A hump that lost half of its heat, while the work is not done; a dip between two humps loses less.
  if (state.peakExcessK >= wanted && excessK < 0.5 * state.peakExcessK && rise12K < 0.5) return 'went-out';
  if (expected !== undefined && ageH >= 24 && core < expected.p10C && expected.p50C - core > 6) {
    return 'below-what-it-should';
  }
  return undefined;
}
