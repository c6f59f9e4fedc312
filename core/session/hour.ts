/** One hour of pile time: the order in which what is known of a pile is stepped. It works on the hour's means, never on single readings. */
import type { Act } from '../../shared/contracts/domain/batch.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { forgetForecast } from '../estimate/ahead.ts';
import { closeAir, easeAir } from '../estimate/air.ts';
import { followApart } from '../estimate/apart.ts';
import { followPhase } from '../estimate/batch-phase.ts';
import { believed } from '../estimate/believed.ts';
import { followCold } from '../estimate/cold.ts';
import { disturbs, followDisturbance, noteAct } from '../estimate/disturbance.ts';
import { followWater } from '../estimate/follow-water.ts';
import { isByHand } from '../estimate/hand-reading.ts';
import { coreAtHour, endHour, heldCore, keepHour, nearAirHours, riseOver } from '../estimate/hours.ts';
import { followRise, noteTurning } from '../estimate/late-turning.ts';
import { followOut, followPaired, readTogether } from '../estimate/out-of-pile.ts';
import { closePosition } from '../estimate/position.ts';
import { calmStall, followStall } from '../estimate/stall.ts';
import type { JudgeState } from '../estimate/state.ts';
import { followSwapped } from '../estimate/swapped.ts';
import { countUnwatched, takeInHands } from '../estimate/take-in.ts';
import { countActivity, followWork, swapBefore } from '../estimate/work-done.ts';
import { bandAt, type ExpectedBand } from '../expect/band.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { type Bed, bedAt } from '../profiles/bed.ts';
import { type PileSetup, pilePositions } from '../profiles/pile-setup.ts';

/** Hourly means that may be believed [°C]; null where nothing was measured. */
interface Means {
  readonly coreC: number | null;
  readonly topC: number | null;
  readonly baseC: number | null;
  readonly airC: number | null;
}

export function closeHour(state: JudgeState, setup: PileSetup, band: ExpectedBand | null): void {
  const { hours, air, water, work } = state;
  const endMs = endHour(hours, setup.startedAtMs);
  const beforeC = coreAtHour(hours, hours.done - 2);
  const means = closeMeans(state, endMs);
  const { coreC, topC, baseC } = means;
  const edgesBefore = swapBefore(work, topC, baseC);
  const airC = closeAir(air, means.airC, state.positions.air, setup.airAhead, endMs);
  keepHour(hours, coreC, airC);
  const actsBefore = water.actsDone;
  takeInHands(water, setup, endMs, endMs);
  noteActs(state, setup.acts.slice(actsBefore, water.actsDone));
  easeAir(air, airC, coreC);

  const heldC = coreC ?? heldCore(hours);
  const { feltC, dayC } = air;
  if (heldC === null || dayC === null || feltC === null) {
    forgetForecast(state.ahead);
    countUnwatched(water);
    return;
  }
  const bed = bedAt(setup, endMs);
  const seen =
    coreC === null || beforeC === null
      ? null
      : {
          now: { coreC, topC, baseC },
          before: { coreC: beforeC, ...edgesBefore },
          air: { hourC: airC ?? feltC, dayC },
        };
  const burntShare = followWork(work, seen, setup.recipe, bed, water.waterKgKg);
  countActivity(work, heldC, wetBasis(water.waterKgKg), heldC - dayC);
  followWater(water, state, setup, bed, { coreC: heldC, topC, airC: feltC }, burntShare);
  if (coreC === null)
    forgetForecast(state.ahead); // nothing was seen: no change of mind
  else followCore(state, setup, band, bed, { endMs, coreC, beforeC, topC, airC: feltC, dayC });
}

/** Closes the means of all positions, and finds out which probe lies beside the pile. */
function closeMeans({ positions }: JudgeState, endMs: number): Means {
  const said = {
    core: closePosition(positions.core, true, endMs),
    top: closePosition(positions.top, false, endMs),
    base: closePosition(positions.base, false, endMs),
    edge: closePosition(positions.edge, false, endMs),
  };
  const airC = believed(positions, 'air', closePosition(positions.air, false, endMs));
  if (airC !== null) {
    for (const position of pilePositions) {
      const followed = positions[position];
      const meanC = said[position];
      // A person knows where the thermometer is.
      if (followed?.temperature == null || meanC === null || isByHand(followed)) continue;
      const isSkin = position === 'top' || position === 'edge';
      const paired = readTogether(followed.temperature, positions.air?.temperature ?? null);
      if (paired === null) followOut(followed.out, followed.hour.stepK, isSkin, meanC, airC, endMs);
      else followPaired(followed.out, paired, isSkin, endMs, followed.temperature.intervalMs);
    }
  }
  return {
    coreC: believed(positions, 'core', said.core),
    topC: believed(positions, 'top', said.top),
    baseC: believed(positions, 'base', said.base),
    airC,
  };
}

function noteActs(state: JudgeState, acts: readonly Act[]): void {
  for (const act of acts) {
    if (act.kind === 'turned')
      noteTurning(state.lateTurning, state.phase.now, act.atMs, state.positions.core?.hour.meanC ?? 0);
    noteAct(state.disturbance, act);
    if (disturbs(act)) calmStall(state.stall);
  }
}

interface CoreHour {
  readonly endMs: number;
  readonly coreC: number;
  readonly beforeC: number | null;
  readonly topC: number | null;
  readonly airC: number;
  readonly dayC: number;
}

/** What is followed only in hours in which the core was measured. */
function followCore(
  state: JudgeState,
  setup: PileSetup,
  band: ExpectedBand | null,
  bed: Bed,
  { endMs, coreC, beforeC, topC, airC, dayC }: CoreHour,
): void {
  const { hours, positions, phase, disturbance, lateTurning } = state;
  const { worksFromAboveAirK } = stageProfiles[setup.stage];
  followRise(lateTurning, coreC);
  const { material } = setup.recipe;
  const done = followDisturbance(disturbance, positions, setup.acts, { endMs, coreC, beforeC, airC, bed, material });
  if (done === 'turned') noteTurning(lateTurning, phase.now, endMs, coreC);
  followCold(state.cold, coreC);
  followApart(state.apart, positions);
  followSwapped(state.swapped, positions, disturbance, topC !== null, endMs);
  followPhase(phase, {
    endMs,
    coreC,
    excessK: coreC - dayC,
    rise6K: riseOver(hours, coreC, 6),
    nearAirH: nearAirHours(hours, dayC),
    workingC: worksFromAboveAirK === null ? setup.limits.comfortMinC : dayC + worksFromAboveAirK,
    disturbedAtMs: disturbance.atMs,
    limits: setup.limits,
  });
  const expected = band === null ? undefined : bandAt(band, endMs);
  followStall(state.stall, state, setup, expected, { coreC, bed, endMs });
}
