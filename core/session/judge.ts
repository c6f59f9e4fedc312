/**
 * The judge of one pile: fed reading by reading, asked now and then.
 *
 * A reading that comes late: the host goes back to a checkpoint of the state and steps again from there. It never reads
 * a clock or remembers anything outside the state: the same readings give the same assessment.
 */

import { forEachPileQuantity, isOfPile, type PileQuantity } from '../../shared/quantity.ts';
import { msPerHour } from '../../shared/units.ts';
import { highLimit } from '../alarms/deadband.ts';
import { chipErrorK, temperatureDeadbandK } from '../alarms/policies.ts';
import { coreCourse } from '../estimate/course.ts';
import { startWater } from '../estimate/follow-water.ts';
import { rememberHeat, startHeat } from '../estimate/heat-memory.ts';
import { progressPct } from '../estimate/progress.ts';
import { emptyState, type JudgeState, type PositionState } from '../estimate/state.ts';
import { doubtedJumpK, followsOn, followTrack, startTrack } from '../estimate/track.ts';
import { waterToAdd } from '../estimate/water-to-add.ts';
import { bandAt, type ExpectedBand } from '../expect/band.ts';
import { wetBasis } from '../physics/water-balance.ts';
import { clockAheadMs } from '../profiles/noted.ts';
import { type JudgeReading, type PilePosition, type PileSetup, pilePositions } from '../profiles/pile-setup.ts';
import { readinessOf } from '../readiness/readiness.ts';
import { smellAndLook } from '../readiness/smell-and-look.ts';
import type { Finding } from '../warnings/finding.ts';
import { findingsOf } from '../warnings/rules.ts';
import { snapshotOf } from '../warnings/snapshot.ts';
import type { Assessment } from './assessment.ts';
import { closeHour, nearAirHours } from './hour.ts';
import { lookAhead, markHourEnds } from './look-ahead.ts';
import { isWaterFounded } from './water-founded.ts';

export type { JudgeState } from '../estimate/state.ts';
export type { ExpectedBand } from '../expect/band.ts';
export type { JudgeReading, PileSetup } from '../profiles/pile-setup.ts';
export type { Assessment } from './assessment.ts';

/** A hand seen in the curve is offered for so long. */
const offeredMs = 48 * msPerHour;

export function startJudge(setup: PileSetup): JudgeState {
  const { waterKgKg, waterSd } = startWater(setup.recipe, setup.limits);
  return emptyState(setup, waterKgKg, waterSd);
}

/** Takes in one reading; amortised O(1). Readings from before the batch, battery and signal strength change nothing. */
export function stepJudge(state: JudgeState, setup: PileSetup, band: ExpectedBand | null, reading: JudgeReading): void {
  const { position, quantity, value, atMs } = reading;
  if (atMs < setup.startedAtMs || !Number.isFinite(value)) return;
  while (atMs >= setup.startedAtMs + (state.hoursDone + 1) * msPerHour) closeHour(state, setup, band);
  if (atMs > state.atMs) state.atMs = atMs;
  state.positions[position] ??= newPosition();
  const place = state.positions[position];
  if (quantity !== 'temperature') {
    if (isOfPile(quantity)) followOther(place, quantity, value, atMs);
    return;
  }
  if (place.temperature === null) {
    place.temperature = startTrack(value, atMs);
  } else {
    const beforeC = place.temperature.value;
    const beforeMs = place.temperature.atMs;
    if (!followTrack(place.temperature, value, atMs, doubtedJumpK[position])) return;
    if (position === 'core' && markHourEnds(state, setup.startedAtMs, beforeC, beforeMs, value, atMs)) {
      lookAhead(state, setup, band);
    }
  }
  place.hourSum += value;
  place.hourCount += 1;
  if (position !== 'air') followHeat(place, position, setup, value, atMs);
}

/** No jump of what is not a temperature is doubted. */
function followOther(place: PositionState, quantity: PileQuantity, value: number, atMs: number): void {
  const track = place[quantity];
  if (track === null) place[quantity] = startTrack(value, atMs);
  else followTrack(track, value, atMs, Number.POSITIVE_INFINITY);
}

function followHeat(place: PositionState, position: PilePosition, setup: PileSetup, tempC: number, atMs: number): void {
  // Beside the pile it feels no heat of the pile.
  if (place.heat === null) place.heat = startHeat(tempC, atMs);
  else if (place.outSinceMs === null) rememberHeat(place.heat, tempC, atMs, setup.limits, setup.noted);
  // A core that a probe's error may hide above the limit counts as there: the cost of the two mistakes is not alike.
  const guardK = position === 'core' ? chipErrorK : 0;
  const passed = highLimit(place.overheated, tempC, setup.limits.actC - guardK, temperatureDeadbandK - guardK);
  // Heat is called on a reading that follows on the one before, not on a wild one; it is gone with the first.
  if (!passed || place.overheated || place.temperature === null || followsOn(place.temperature, doubtedJumpK[position]))
    place.overheated = passed;
}

function newPosition(): PositionState {
  return {
    ...forEachPileQuantity(() => null),
    hourSum: 0,
    hourCount: 0,
    hourMeanC: null,
    hourStepK: null,
    stepBeforeK: 0,
    moistureBeforePct: null,
    dayMeanC: null,
    overheated: false,
    heat: null,
    dryAirH: 0,
    outSinceMs: null,
    warmthK: 0,
    warmthBeforeK: 0,
    suspectH: 0,
    nearAirH: 0,
    airLowC: 0,
    airHighC: 0,
  };
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
  const look = snapshotOf(state, setup, band, nowMs);
  const expected = band === null ? undefined : bandAt(band, nowMs);
  const coreC = look.coreKnown ? (look.core?.temperatureC ?? null) : null;
  const moisture = wetBasis(look.water.waterKgKg);
  const founded = isWaterFounded(state, setup, nowMs);
  const { confirmedAtMs } = setup;
  const judged = smellAndLook(setup.noted ?? [], look.handSigns, nowMs);
  const isSpoilt = judged.badAtMs !== null && judged.badAtMs >= (confirmedAtMs ?? 0);
  return {
    atMs: nowMs,
    phase: state.phase,
    phaseReason: state.phaseReason,
    phaseSinceMs: state.phaseSinceMs,
    progressPct: Math.round(progressPct(state.activityH, setup.stage) * 10) / 10,
    positions: look.positions,
    hasProbe: setup.served === undefined || pilePositions.some((position) => setup.served?.[position] !== undefined),
    coreDoubted: look.coreLost === 'probe-stuck' || look.coreLost === 'probe-out',
    airC: look.positions.air === null ? null : state.airC,
    coreRiseKPerH: look.coreRiseKPerH,
    coreCourse: coreC === null ? null : coreCourse(state, coreC),
    againstExpected:
      expected === undefined || coreC === null
        ? null
        : coreC < expected.p10C
          ? 'below'
          : coreC > expected.p90C
            ? 'above'
            : 'within',
    moisture: founded ? { frac: moisture, sdFrac: look.water.waterSd * (1 - moisture) ** 2 } : null,
    forecast: coreC === null ? null : state.forecast,
    seenHands: state.seenHands.filter(({ atMs }) => nowMs - atMs < offeredMs),
    handSigns: look.handSigns,
    heat: look.heat,
    readiness: readinessOf({
      heat: look.worstHeat,
      lossC: setup.limits.lossC,
      peakC: state.peakC,
      peakExcessK: state.highestExcessK,
      nearAirH: state.phase === 'settled' || state.phase === 'cooling' ? nearAirHours(state) : 0,
      sinceLateTurnH: state.lateTurnAtMs === null ? null : (nowMs - state.lateTurnAtMs) / msPerHour,
      riseSinceTurnK: state.riseSinceTurnK,
      confirmed: confirmedAtMs !== undefined && confirmedAtMs <= nowMs + clockAheadMs && !isSpoilt,
      judged,
    }),
    waterToAdd: founded ? waterToAdd(look.water, setup.recipe, setup.limits) : null,
    assumed: setup.assumed ?? [],
    limits: {
      actC: setup.limits.actC,
      lossC: setup.limits.lossC,
      comfortMinC: setup.limits.comfortMinC,
      comfortMaxC: setup.limits.comfortMaxC,
      moistureMinFrac: setup.limits.moistureMinFrac,
      moistureMaxFrac: setup.limits.moistureMaxFrac,
    },
    findings: findingsOf(look),
  };
}
