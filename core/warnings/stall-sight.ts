/**
 * Whether one hour looks like a stall. It never calls a natural dip, a planned airing or the end of a batch a stall.
 */
import { msPerHour } from '../../shared/units.ts';
import { airAtHour, coreAtHour, type JudgeState, type StallWhy } from '../estimate/state.ts';
import { mostPerH } from '../estimate/work.ts';
import type { BandPoint } from '../expect/band.ts';
import { cardinalTemperatureFactor, cultureSet } from '../physics/cardinal-temperature.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';

/** Hours in a row that make it a stall; our own, so that a cold night does not. */
export const stallAfterH = 7;
/** A warm bed may rest between two humps: it is given longer [h]. */
export const warmStallAfterH = 12;
/** After an act a heap is given this long to warm again [h]. */
export const actExplainsH = 18;
/**
 * Burning less of its food a day than this is standing still; the same within the second when it also lies below the
 * expected band [per day]. From the development piles of the detection bench; no source found.
 */
export const standingPerDay = 0.05;
export const slowPerDay = 0.065;
/** A batch that has burnt this much of its food and cools is ending, not stalling [-]. */
const nearlyDone = { bran: 0.4, soil: 0.06 } as const;
/** A batch that had a hump of this height and is as old as its stage may be has ended rather than stalled [K]. */
const humpK = { bran: 10, soil: 4 } as const;
/** Before this age a heap may still be waking; in the cold it takes so much longer at most [h]. */
const wakingH = { bran: 30, soil: 20 } as const;
const coldWakingH = { bran: 0, soil: 4 } as const;
/**
 * Depth to which a day’s swing of the air comes through a damp bed, weakened to a third [m]: sqrt(2 a / w) with a = 2e-7 m²/s
 * (0.28 W/m K over 185 kg/m³ of bran at 60 %) and one turn a day.
 */
const dayDepthM = 0.075;
/** Repeating one value for so long, a probe may have stuck: until it moves, or is said to be stuck, nothing is counted [ms]. */
const sameMs = 3 * msPerHour;

export function stallSight(
  state: JudgeState,
  setup: PileSetup,
  expected: BandPoint | undefined,
  core: number,
  depthM: number,
  endMs: number,
): StallWhy | undefined {
  // A stall that stands is not talked away by the little work a cool heap still does.
  const standing = stallStands(state);
  if (!standing && state.workDoneMost >= nearlyDone[setup.stage]) return undefined;
  const ageH = (endMs - setup.startedAtMs) / msPerHour;
  const hadItsHump = state.highestExcessK >= humpK[setup.stage];
  // Too cold to work it is neither on its way nor at its end: what it shows is the weather, and the warmth it was laid with.
  const couldWork = 24 * mostPerH(core) >= standingPerDay;
  if (!standing && couldWork && hadItsHump && ageH >= setup.limits.lengthMinH) return undefined;
  if (state.disturbedAtMs !== null && endMs - state.disturbedAtMs < actExplainsH * msPerHour) return undefined;
  const slow = 1 - Math.min(1, cardinalTemperatureFactor(core, cultureSet) / 0.5);
  if (ageH < wakingH[setup.stage] + coldWakingH[setup.stage] * slow) return undefined;
  if (couldWork && (ownRiseK(state, core, 6, depthM) >= 1 || ownRiseK(state, core, 12, depthM) >= 2)) return undefined;
  const idle = state.workPerDay < standingPerDay;
  if (setup.stage === 'bran' && core >= setup.limits.comfortMinC) return idle ? 'warm-but-idle' : undefined;
  if (idle) return state.peakExcessK < 6 ? 'never-warmed' : 'went-out';
  if (expected !== undefined && core < expected.p10C && state.workPerDay < slowPerDay) return 'below-what-it-should';
  return undefined;
}

/** Whether enough hours in a row have looked like a stall. */
export function stallStands({ stallH, stallWhy }: JudgeState): boolean {
  return stallWhy !== null && stallH >= (stallWhy === 'warm-but-idle' ? warmStallAfterH : stallAfterH);
}

/** Rise of the core less what the warming air may have put into it through half the bed [K]. */
function ownRiseK(state: JudgeState, core: number, hours: number, depthM: number): number {
  const last = state.hoursDone - 1;
  const before = coreAtHour(state, last - hours);
  if (before === null) return 0;
  const air = airAtHour(state, last);
  const airBefore = airAtHour(state, last - hours);
  const airRiseK = air === null || airBefore === null ? 0 : Math.max(0, air - airBefore);
  return core - before - airRiseK * Math.exp(-depthM / 2 / dayDepthM);
}

/** Whether the core has said the same for so long that it may have stuck. */
export function coreStandsStill(state: JudgeState): boolean {
  const track = state.positions.core?.temperature;
  return track != null && track.count > 3 && track.atMs - track.sameSinceMs >= sameMs;
}
