/**
 * The judge of one pile: fed reading by reading, asked now and then.
 *
 * A reading that comes late: the host goes back to a checkpoint of the state and steps again from there. It never reads
 * a clock or remembers anything outside the state: the same readings give the same assessment.
 */

import { clockAheadMs } from '../../shared/clock-ahead.ts';
import { positions } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import { stepAhead } from '../estimate/ahead.ts';
import { airStandIn, hearStandby } from '../estimate/air.ts';
import { hasMadeHeat } from '../estimate/batch-phase.ts';
import { bridgedMs, isAwaited } from '../estimate/between.ts';
import { comfortNow } from '../estimate/comfort.ts';
import { coreCourse } from '../estimate/course.ts';
import { offeredMs } from '../estimate/disturbance.ts';
import { hear, markHourEnds, nearAirHours } from '../estimate/hours.ts';
import { followReading } from '../estimate/position.ts';
import { progressPct } from '../estimate/progress.ts';
import { type JudgeState, startState } from '../estimate/state.ts';
import { waterToAdd } from '../estimate/water-to-add.ts';
import { bandAt, type ExpectedBand } from '../expect/band.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { type JudgeReading, type PileSetup, pilePositions } from '../profiles/pile-setup.ts';
import { readinessOf } from '../readiness/readiness.ts';
import { smellAndLook } from '../readiness/smell-and-look.ts';
import type { Finding } from '../warnings/finding.ts';
import { findingsOf } from '../warnings/rules.ts';
import { type PileSnapshot, snapshotOf } from '../warnings/snapshot.ts';
import type { Assessment } from './assessment.ts';
import { closeHour } from './hour.ts';
import { type MeasureNext, measureNext } from './measure-next.ts';
import { isWaterFounded } from './water-founded.ts';

export type { JudgeState } from '../estimate/state.ts';
export type { ExpectedBand } from '../expect/band.ts';
export type { JudgeReading, PileSetup } from '../profiles/pile-setup.ts';
export type { Assessment } from './assessment.ts';

export const startJudge = startState;

/** Takes in one reading; amortised O(1). Readings from before the batch, battery and signal strength change nothing. */
export function stepJudge(state: JudgeState, setup: PileSetup, band: ExpectedBand | null, reading: JudgeReading): void {
  const { hours, positions } = state;
  const { startedAtMs } = setup;
  const { position, quantity, value, atMs, standby } = reading;
  if (atMs < startedAtMs || !Number.isFinite(value)) return;
  if (standby !== undefined) {
    if (quantity === 'temperature') hearStandby(state.air, standby, value, atMs);
    return;
  }
  if (!isAwaited(positions.core?.temperature ?? null, atMs)) closeHours(state, setup, band, atMs);
  hear(hours, atMs);
  const core = position === 'core' && quantity === 'temperature' ? (positions.core?.temperature ?? null) : null;
  const beforeC = core?.value ?? 0;
  const beforeMs = core?.atMs ?? 0;
  const isBelieved = followReading(positions, reading, setup);
  if (core === null) return;
  // Those that waited for it, unless it is doubted and they wait on.
  if (isBelieved || !isAwaited(core, atMs)) closeHours(state, setup, band, atMs);
  if (!isBelieved) return;
  if (markHourEnds(hours, startedAtMs, { valueC: beforeC, atMs: beforeMs }, { valueC: value, atMs }, bridgedMs(core)))
    stepAhead(state.ahead, state, setup, band);
}

function closeHours(state: JudgeState, setup: PileSetup, band: ExpectedBand | null, untilMs: number): void {
  while (untilMs >= setup.startedAtMs + (state.hours.done + 1) * msPerHour) closeHour(state, setup, band);
}

/** What stands at `nowMs`, without the rest of the assessment: it is asked for far oftener. */
export function findingsAt(
  state: JudgeState,
  setup: PileSetup,
  band: ExpectedBand | null,
  nowMs: number,
): readonly Finding[] {
  return findingsOf(snapshotOf(state, setup, band, nowMs));
}

/** What there is to say at `nowMs`; changes nothing. */
export function assess(state: JudgeState, setup: PileSetup, band: ExpectedBand | null, nowMs: number): Assessment {
  const { phase, lateTurning } = state;
  const snapshot = snapshotOf(state, setup, band, nowMs);
  const expected = band === null ? undefined : bandAt(band, nowMs);
  const coreC = snapshot.coreKnown ? (snapshot.core?.temperatureC ?? null) : null;
  const moisture = wetBasis(snapshot.water.waterKgKg);
  const founded = isWaterFounded(state, setup, nowMs);
  const { confirmedAtMs } = setup;
  const judged = smellAndLook(setup.noted ?? [], snapshot.handSigns, nowMs);
  const isSpoilt = judged.badAtMs !== null && judged.badAtMs >= (confirmedAtMs ?? 0);
  return {
    atMs: nowMs,
    phase: phase.now,
    phaseReason: phase.reason,
    phaseSinceMs: phase.sinceMs,
    progressPct: Math.round(progressPct(state.work.activityH, setup.stage) * 10) / 10,
    positions: snapshot.positions,
    hasProbe: setup.served === undefined || pilePositions.some((position) => setup.served?.[position] !== undefined),
    coreDoubted: snapshot.coreLost === 'probe-stuck' || snapshot.coreLost === 'probe-out',
    airC: snapshot.positions.air === null && airStandIn(state.air) === null ? null : state.air.feltC,
    airStandIn: airStandIn(state.air),
    coreRiseKPerH: snapshot.coreRiseKPerH,
    coreCourse: coreC === null ? null : coreCourse(state.hours, coreC),
    comfort: coreC === null ? null : comfortNow(phase.comfort, coreC, setup.limits),
    hasMadeHeat: hasMadeHeat(phase, state.work.most),
    againstExpected: expected === undefined || coreC === null ? null : againstExpected(expected, coreC),
    moisture: founded ? { frac: moisture, sdFrac: snapshot.water.waterSd * (1 - moisture) ** 2 } : null,
    forecast: coreC === null ? null : state.ahead.forecast,
    detectedInterventions: state.disturbance.detected.filter(({ atMs }) => nowMs - atMs < offeredMs),
    handSigns: snapshot.handSigns,
    heat: snapshot.heat,
    readiness: readinessOf({
      heat: snapshot.worstHeat,
      lossC: setup.limits.lossC,
      peakC: phase.peakC,
      peakExcessK: phase.highestExcessK,
      nearAirH: phase.now === 'settled' || phase.now === 'cooling' ? nearAirHours(state.hours, state.air.dayC) : 0,
      sinceLateTurnH: lateTurning.atMs === null ? null : (nowMs - lateTurning.atMs) / msPerHour,
      riseSinceTurnK: lateTurning.risenK,
      confirmed: confirmedAtMs !== undefined && confirmedAtMs <= nowMs + clockAheadMs && !isSpoilt,
      judged,
    }),
    waterToAdd: founded ? waterToAdd(snapshot.water, setup.recipe, setup.limits) : null,
    measureNext: measureCoreNext(state, setup, snapshot),
    measuredByHand: measuredByHand(state),
    assumed: setup.assumed ?? [],
    limits: {
      actC: setup.limits.actC,
      lossC: setup.limits.lossC,
      comfortMinC: setup.limits.comfortMinC,
      comfortMaxC: setup.limits.comfortMaxC,
      moistureMinFrac: setup.limits.moistureMinFrac,
      moistureMaxFrac: setup.limits.moistureMaxFrac,
    },
    findings: findingsOf(snapshot),
  };
}

function againstExpected(
  { p10C, p90C }: { readonly p10C: number; readonly p90C: number },
  coreC: number,
): NonNullable<Assessment['againstExpected']> {
  if (coreC < p10C) return 'below';
  return coreC > p90C ? 'above' : 'within';
}

function measuredByHand(state: JudgeState): Assessment['measuredByHand'] {
  const measured: Assessment['measuredByHand'][number][] = [];
  for (const position of positions) {
    const hand = state.positions[position]?.hand ?? null;
    if (hand !== null) measured.push({ position, ...hand });
  }
  return measured;
}

/** Whoever only judges what speaks knows of no hand that could measure. */
function measureCoreNext(
  { positions: { core } }: JudgeState,
  { served, limits }: PileSetup,
  { coreKnown, core: sight, nowMs }: PileSnapshot,
): MeasureNext | null {
  if (served === undefined || (coreKnown && sight?.byHand !== true)) return null;
  const hand = core?.hand ?? null;
  const isProbeLost = served.core !== undefined;
  // A probe that was only just given to the pile is waited for; one that is lost is not.
  if (isProbeLost && sight === null) return null;
  const standsIn = hand !== null && (!isProbeLost || hand.standsIn);
  return measureNext({ hand: standsIn ? hand : null, isProbeLost, limits, nowMs });
}
