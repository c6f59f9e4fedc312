/**
 * What the judge does once an hour of pile time: score, phase, water, stall. It never looks at single readings: it
 * works on the hour's means.
 */

import type { Act } from '../../shared/contracts/domain/batch.ts';
import { msPerHour } from '../../shared/units.ts';
import { lowLimit } from '../alarms/deadband.ts';
import { followWater } from '../estimate/follow-water.ts';
import { detectIntervention } from '../estimate/interventions.ts';
import { nextPhase } from '../estimate/phase.ts';
import { hourActivity } from '../estimate/progress.ts';
import { coreAtHour, type JudgeState, keptHours } from '../estimate/state.ts';
import { takeInHands } from '../estimate/take-in.ts';
import { hourWork } from '../estimate/work.ts';
import { bandAt, type ExpectedBand } from '../expect/band.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { bedAt } from '../profiles/bed.ts';
import { nearK } from '../profiles/passed-heat.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { chilledC, chilledDeadbandK } from '../warnings/chilled.ts';
import { followOut } from '../warnings/out-sight.ts';
import { maybeOut } from '../warnings/snapshot.ts';
import { coreStandsStill, stallSight } from '../warnings/stall-sight.ts';
import { isStuck } from '../warnings/stuck.ts';
import { unevenK } from '../warnings/uneven.ts';

/** A gap up to this long is bridged with the last hour's value [h]. */
const bridgedH = 6;
/** Within this of each other, a logged and a seen hand are the same one. */
const sameHandMs = 3 * msPerHour;
/** A pulled probe is known for one this much later. */
const pulledBeforeMs = 8 * msPerHour;
const keptHandsMs = 48 * msPerHour;
/** So long a turned bed may take to warm again. */
const handExplainsMs = 12 * msPerHour;
/** No night cools a bed so fast that it would seem to give back this share of its food in an hour: that was a hand [-]. */
const openedPerH = -0.03;
/** Work is eased over half a day, for nights and skins in the sun make it swing [h]. */
const workEasedH = 12;
const mostWork = 1.3;
/** Beds thinner than this follow day and night [m]. */
const shallowM = 0.2;
/** A gentle heap of soil works this far above the air [K]; common practice, no source. */
const soilWorkingK = 5;

export function closeHour(state: JudgeState, setup: PileSetup, band: ExpectedBand | null): void {
  state.hoursDone += 1;
  const endMs = setup.startedAtMs + state.hoursDone * msPerHour;
  const before = coreAtHour(state, state.hoursDone - 2);
  const coreSaid = hourMean(state, 'core');
  const airSaid = hourMean(state, 'air');
  const other = { top: hourMean(state, 'top'), base: hourMean(state, 'base'), edge: hourMean(state, 'edge') };
  const air = believed(state, 'air', airSaid);
  const heatBefore = state.heatBefore;
  if (air !== null) {
    for (const [position, mean] of [
      ['core', coreSaid],
      ['top', other.top],
      ['base', other.base],
      ['edge', other.edge],
    ] as const) {
      const place = state.positions[position];
      if (place !== null && mean !== null) {
        followOut(place, position === 'top' || position === 'edge', mean, air, endMs);
      }
    }
  }
  const core = believed(state, 'core', coreSaid);
  const topC = believed(state, 'top', other.top);
  const baseC = believed(state, 'base', other.base);
  state.heatBefore = { topC, baseC };
  remember(state, core, air);
  const actsBefore = state.actsDone;
  takeInHands(state, setup, endMs, endMs);
  noteActs(state, setup.acts.slice(actsBefore, state.actsDone));
  easeAir(state, air, core);

  const heldC = core ?? heldCore(state);
  if (heldC === null || state.airDayC === null || state.airC === null) {
    state.forecast = null;
    state.unwatchedH += 1;
    return;
  }
  const bed = bedAt(setup, endMs);
  const doneBefore = state.workDone;
  if (core !== null && before !== null) {
    const work = hourWork(
      { coreC: core, topC, baseC },
      { coreC: before, ...heatBefore },
      { hourC: air ?? state.airC, dayC: state.airDayC },
      setup.recipe,
      bed,
      state.waterKgKg,
    );
    // A thin bed loses at night what it was lent by day, and both count; a fall by a hand is no work undone.
    const made = work < openedPerH ? 0 : work;
    state.workDone = Math.max(0, state.workDone + made);
    state.workPerDay += (24 * made - state.workPerDay) / workEasedH;
  } else if (heldC !== null) state.workDone += Math.max(0, state.workPerDay / 24);
  // What a thin bed is lent by day it gives back at night, so that its most would say too much.
  state.workDoneMost = bed.depthM < shallowM ? state.workDone : Math.max(state.workDoneMost, state.workDone);
  state.activityH += hourActivity(heldC, wetBasis(state.waterKgKg), heldC - state.airDayC);
  // More than all its food it cannot have burnt, however warm it stays; the reckoning may be a third off.
  const burntShare = Math.max(0, Math.min(mostWork, state.workDone) - doneBefore);
  followWater(state, setup, bed, { coreC: heldC, topC, airC: state.airC }, burntShare);
  if (core === null) {
    state.forecast = null;
    return; // nothing was seen: no change of mind
  }

  followHands(state, setup, before, core, endMs);
  state.coldH = lowLimit(state.coldH > 0, core, chilledC, chilledDeadbandK) ? state.coldH + 1 : 0;
  followUneven(state);
  state.startC ??= core;
  const excessK = core - state.airDayC;
  if (state.peakC === null || core > state.peakC) {
    state.peakC = core;
    state.peakAtMs = endMs;
  }
  if (excessK > state.peakExcessK) state.peakExcessK = excessK;
  if (excessK > state.highestExcessK) state.highestExcessK = excessK;
  followPhase(state, setup, core, excessK, endMs);
  followStall(state, setup, band, core, bed.depthM, endMs);
}

function hourMean(state: JudgeState, position: 'core' | 'top' | 'base' | 'edge' | 'air'): number | null {
  const place = state.positions[position];
  if (place === null) return null;
  place.hourStepK = null;
  if (place.hourCount === 0) return null;
  const mean = place.hourSum / place.hourCount;
  place.hourSum = 0;
  place.hourCount = 0;
  place.hourStepK = place.hourMeanC === null ? null : mean - place.hourMeanC;
  place.hourMeanC = mean;
  place.dayMeanC = place.dayMeanC === null ? mean : place.dayMeanC + (mean - place.dayMeanC) / 12;
  const rh = place.humidity?.value;
  // 95 %RH is 1 K of dew-point depression at 55 °C (computed); two points below allow for the sensor.
  if (rh !== undefined) place.dryAirH = rh < 93 ? place.dryAirH + 1 : 0;
  return mean;
}

/**
 * A probe that lies beside the pile says nothing of it. One that repeats itself is left out where another can stand for it; the
 * core's own last word is kept, for a notebook of whole degrees repeats itself as well.
 */
function believed(state: JudgeState, position: 'core' | 'top' | 'base' | 'air', meanC: number | null): number | null {
  const place = state.positions[position];
  if (place?.temperature == null || place.outSinceMs !== null) return null;
  if (position === 'core') return maybeOut(state) ? null : meanC;
  return isStuck(place.temperature, position) ? null : meanC;
}

function remember(state: JudgeState, core: number | null, air: number | null): void {
  state.coreCentiByHour.push(core === null ? null : Math.round(core * 100));
  state.airCentiByHour.push(air === null ? null : Math.round(air * 100));
  state.coreEndCentiByHour.push(null);
  if (state.coreCentiByHour.length > keptHours) {
    state.coreCentiByHour.shift();
    state.airCentiByHour.shift();
    state.coreEndCentiByHour.shift();
    state.firstHour += 1;
  }
}

function heldCore(state: JudgeState): number | null {
  for (let back = 1; back <= bridgedH; back += 1) {
    const value = coreAtHour(state, state.hoursDone - 1 - back);
    if (value !== null) return value;
  }
  return null;
}

/** Without a probe beside the pile, its air is taken as the coolest the core began with. */
function easeAir(state: JudgeState, air: number | null, core: number | null): void {
  const seen = air ?? (state.airC === null && core !== null ? Math.min(core, 25) : null);
  if (seen === null) return;
  state.airC = state.airC === null ? seen : state.airC + (seen - state.airC) / 4;
  state.airDayC = state.airDayC === null ? seen : state.airDayC + (seen - state.airDayC) / 24;
}

function noteActs(state: JudgeState, acts: readonly Act[]): void {
  for (const act of acts) {
    if (act.kind === 'turned') noteTurn(state, act.atMs, state.positions.core?.hourMeanC ?? 0);
    if (act.kind !== 'note' && act.kind !== 'covered' && act.kind !== 'rained') {
      state.disturbedAtMs = act.atMs;
      state.disturbedBy = 'logged';
      state.stallH = 0;
    }
  }
}

function followPhase(state: JudgeState, setup: PileSetup, core: number, excessK: number, endMs: number): void {
  const sixBefore = coreAtHour(state, state.hoursDone - 7) ?? state.startC ?? core;
  const workingC = setup.stage === 'soil' ? (state.airDayC ?? core) + soilWorkingK : setup.limits.comfortMinC;
  const change = nextPhase(state.phase, {
    coreC: core,
    excessK,
    rise6K: core - sixBefore,
    peakExcessK: state.peakExcessK,
    nearAirH: nearAirHours(state),
    workingC,
  });
  if (change === undefined) return;
  // A drop that a hand explains is no heat passing: it may well come back.
  const handledMs = state.disturbedAtMs === null ? Number.POSITIVE_INFINITY : endMs - state.disturbedAtMs;
  if (change.phase === 'cooling' && handledMs < handExplainsMs) return;
  state.phase = change.phase;
  state.phaseReason = change.reason;
  state.phaseSinceMs = endMs;
  if (change.reason === 'heat-faded' || change.reason === 'reheated') state.peakExcessK = excessK;
}

/** A hand that nobody logged explains a drop all the same, and is offered for the journal. */
function followHands(state: JudgeState, setup: PileSetup, before: number | null, core: number, endMs: number): void {
  const { core: place, top, base, air } = state.positions;
  const moisturePct = place?.moisture == null ? null : place.moisture.value;
  const moistureBeforePct = place?.moistureBeforePct ?? null;
  if (place !== null) place.moistureBeforePct = moisturePct;
  if (state.lateTurnAtMs !== null) state.riseSinceTurnK = Math.max(state.riseSinceTurnK, core - state.lateTurnC);
  const kind = detectIntervention({
    coreK: before === null ? null : (place?.temperature?.value ?? core) - before,
    topK: top?.hourStepK ?? null,
    baseK: base?.hourStepK ?? null,
    airK: air?.hourStepK ?? 0,
    excessK: (before ?? core) - (state.airC ?? core),
    moisturePct: moisturePct === null || moistureBeforePct === null ? null : moisturePct - moistureBeforePct,
  });
  if (place?.outSinceMs != null) {
    // What looked like a hand was the probe coming out of the pile.
    const outMs = place.outSinceMs;
    state.seenHands = state.seenHands.filter(({ atMs }) => outMs - atMs > pulledBeforeMs);
    return;
  }
  if (kind === undefined) return;
  const near = (atMs: number): boolean => Math.abs(atMs - endMs) < sameHandMs;
  if (kind === 'turned') noteTurn(state, endMs, core);
  if (setup.acts.some((act) => act.kind !== 'note' && near(act.atMs))) return;
  if (state.seenHands.some((seen) => near(seen.atMs))) return;
  state.seenHands = [...state.seenHands.filter(({ atMs }) => endMs - atMs < keptHandsMs), { kind, atMs: endMs }];
  state.disturbedAtMs = endMs;
  state.disturbedBy = 'seen';
}

function noteTurn(state: JudgeState, atMs: number, coreC: number): void {
  if (state.phase !== 'cooling' && state.phase !== 'settled') return;
  state.lateTurnAtMs = atMs;
  state.lateTurnC = coreC;
  state.riseSinceTurnK = 0;
}

function followUneven(state: JudgeState): void {
  const { top, base } = state.positions;
  const apart = top?.dayMeanC == null || base?.dayMeanC == null ? 0 : Math.abs(top.dayMeanC - base.dayMeanC);
  // A turn evens a bed out at once; the day's means learn it late.
  const nowApart = Math.abs((top?.hourMeanC ?? 0) - (base?.hourMeanC ?? 0));
  state.unevenH = apart > unevenK && nowApart > unevenK / 2 ? state.unevenH + 1 : 0;
  state.unevenBy = top?.outSinceMs != null || base?.outSinceMs != null ? 'probe-out' : null;
}

/** Hours in a row, up to twelve, in which the core was within 5 °C of the air. */
export function nearAirHours(state: JudgeState): number {
  const air = state.airDayC;
  if (air === null) return 0;
  let count = 0;
  for (let back = 1; back <= 12; back += 1) {
    const core = coreAtHour(state, state.hoursDone - back);
    if (core === null || core - air > nearK) break;
    count += 1;
  }
  return count;
}

function followStall(
  state: JudgeState,
  setup: PileSetup,
  band: ExpectedBand | null,
  core: number,
  depthM: number,
  endMs: number,
): void {
  if (coreStandsStill(state)) return;
  const why = stallSight(state, setup, band === null ? undefined : bandAt(band, endMs), core, depthM, endMs);
  state.stallWhy = why ?? state.stallWhy;
  // Two steps back for each hour without it, so that one lucky hour does not start the count afresh.
  state.stallH = why === undefined ? Math.max(0, state.stallH - 2) : Math.min(48, state.stallH + 1);
  if (state.stallH === 0) state.stallWhy = null;
}
