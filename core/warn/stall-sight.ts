/**
 * core/warn/stall-sight.ts: whether one hour looks like a stall.
 *
 * Takes:  the state, the band at the hour's end, the core.
 * Gives:  why it looks like one, or undefined.
 * Never:  calls a natural dip, a planned airing or the end of a batch a stall.
 */
import { msPerHour } from '../../shared/units.ts';
import type { BandPoint } from '../curve/band.ts';
import type { PileSetup } from '../judge/setup.ts';
import { coreAtHour, type JudgeState, type StallWhy } from '../judge/state.ts';

/** Hours in a row that make it a stall; our own, so that a cold night does not. */
export const stallAfterH = 6;
/** After an act a heap is given this long to warm again [h]. */
const actExplainsH = 18;
/**
 * Burning less of its food a day than this is standing still; the same within the second when it also lies below the
 * expected band [per day]. From the development piles of the detection bench; no source found.
 */
const standingPerDay = 0.05;
const slowPerDay = 0.08;
/** A batch that has burnt this much of its food and cools is ending, not stalling [-]. */
const nearlyDone = { bran: 0.36, soil: 0.12 } as const;
/** A batch that had a hump of this height and is as old as its stage may be has ended rather than stalled [K]. */
const humpK = { bran: 10, soil: 4 } as const;
/** Before this age a heap may still be waking [h]. */
const wakingH = { bran: 30, soil: 20 } as const;

export function stallSight(
  state: JudgeState,
  setup: PileSetup,
  expected: BandPoint | undefined,
  core: number,
  endMs: number,
): StallWhy | undefined {
  // A stall that stands is not talked away by the little work a cool heap still does.
  const standing = state.stallH >= stallAfterH;
  if (!standing && state.workDone >= nearlyDone[setup.stage]) return undefined;
  const ageH = (endMs - setup.startedAtMs) / msPerHour;
  const hadItsHump = state.highestExcessK >= humpK[setup.stage];
  if (!standing && hadItsHump && ageH >= setup.limits.lengthMinH) return undefined;
  if (state.disturbedAtMs !== null && endMs - state.disturbedAtMs < actExplainsH * msPerHour) return undefined;
  if (ageH < wakingH[setup.stage]) return undefined;
  const rise6K = core - (coreAtHour(state, state.hoursDone - 7) ?? core);
  const rise12K = core - (coreAtHour(state, state.hoursDone - 13) ?? core);
  if (rise6K >= 1 || rise12K >= 2) return undefined; // it is on its way
  if (setup.stage === 'bran' && core >= setup.limits.comfortMinC) return undefined; // warm enough, whatever keeps it so

  if (state.workPerDay < standingPerDay) return state.peakExcessK < 6 ? 'never-warmed' : 'went-out';
  if (expected !== undefined && core < expected.p10C && state.workPerDay < slowPerDay) return 'below-what-it-should';
  return undefined;
}
