/**
 * core/moisture/follow.ts: the water balance of the running batch, one hour at a time.
 *
 * Takes:  the judge's state, the recipe and bed, the hour's core and air.
 * Gives:  the state's water and its uncertainty, changed in place.
 */

import type { Recipe } from '../../shared/batch.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { lowLimit } from '../alarm/deadband.ts';
import { waterOfBurning } from '../curve/lumped-model.ts';
import { materialFacts } from '../curve/material-facts.ts';
import type { Bed } from '../judge/bed.ts';
import type { JudgeState } from '../judge/state.ts';
import { dryBasis, heldKgKg, hourlyLoss, lossDoubtOf, rainTaken, wetBasis } from './balance.ts';
import { correctByDryAir, correctByProbe } from './correct.ts';

export function startWater(recipe: Recipe, limits: StageLimits): { waterKgKg: number; waterSd: number } {
  const facts = materialFacts[recipe.material];
  const laid = recipe.moistureFrac ?? Math.min(limits.moistureMaxFrac, facts.moistureFrac);
  const frac = Math.min(0.9, Math.max(0.05, laid));
  const sdFrac = recipe.moistureFrac === undefined ? facts.moistureSd : 0.02;
  return { waterKgKg: dryBasis(frac), waterSd: sdFrac / (1 - frac) ** 2 };
}

/** How far below the stage's band the estimate must lie before it counts as dry: the balance is good to a few points. */
export const dryMarginFrac = 0.035;
/** Air humidity where nobody measures it [%]: dry weather takes far more out of an open bed, so what that would take is doubt. */
const unmeasuredHumidityPct = 65;
const unmeasuredHumiditySdPct = 22;
/** What is not ready food burns as well, and the work is reckoned low: in all so much for each part of ready food; our own, fitted. */
const slowToo = 1.7;
/** Nobody waters without a handful in the hand: what may still be off then, per dry matter [-]; a squeeze alone is good to 0.2. */
const felt = 0.25;
/** How far a rain that was told may be off for this bed, as a share; common practice, no source. */
const rainDoubt = 0.3;
/** Hours of clearly unsaturated pore air that count. */
export const dryAirNeededH = 3;
const dryDeadbandFrac = 0.025;

/** The estimate less half its standard deviation; less all of it where nobody told or measured what was laid. */
function doubtedFrac(state: JudgeState, recipe: Recipe): number {
  const known = recipe.moistureFrac !== undefined || state.samplesDone > 0;
  return wetBasis(Math.max(0, state.waterKgKg - (known ? 0.5 : 1) * state.waterSd));
}

/** A shower that does not bring the bed clear of the limit takes nothing back. */
function followDry(state: JudgeState, recipe: Recipe, limits: StageLimits): void {
  const floor = limits.moistureMinFrac - dryMarginFrac;
  state.dry = lowLimit(state.dry, doubtedFrac(state, recipe), floor, dryDeadbandFrac);
}

export function followWater(
  state: JudgeState,
  recipe: Recipe,
  limits: StageLimits,
  bed: Bed,
  coreC: number,
  airC: number,
  burntShare: number,
): void {
  const measuredPct = state.positions.air?.humidity?.value;
  const airHumidityPct = measuredPct === undefined ? unmeasuredHumidityPct : Math.min(100, Math.max(5, measuredPct));
  const lossAt = (humidityPct: number): number => hourlyLoss(coreC, airC, humidityPct, state.waterKgKg, recipe, bed);
  const loss = lossAt(airHumidityPct);
  // Burning makes water and takes dry matter away: both raise the water per dry matter.
  const burnt = burntShare * materialFacts[recipe.material].burningFrac * slowToo;
  const made = (waterOfBurning + state.waterKgKg) * burnt;
  const unmeasured = measuredPct === undefined ? lossAt(unmeasuredHumidityPct - unmeasuredHumiditySdPct) - loss : 0;
  state.waterKgKg = Math.max(0.02, state.waterKgKg - loss + made);
  state.waterSd += Math.hypot(lossDoubtOf(recipe, bed.cover) * loss, unmeasured) + 0.15 * made;
  // What the bed cannot hold drains away, half of it in an hour.
  const holds = heldKgKg(recipe.material);
  if (state.waterKgKg > holds) state.waterKgKg = holds + (state.waterKgKg - holds) / 2;
  const probe = state.positions.core?.moisture;
  if (probe != null && state.atMs - probe.atMs < msPerHour) correctByProbe(state, probe.value, recipe);
  if ((state.positions.core?.dryAirH ?? 0) >= dryAirNeededH) correctByDryAir(state);
  followDry(state, recipe, limits);
}

/** Takes in a watering. Without litres or mass it is taken as bringing the bed to the middle of its band. */
export function waterGiven(state: JudgeState, recipe: Recipe, limits: StageLimits, amountL: number | undefined): void {
  if (amountL !== undefined && recipe.massKg !== undefined) {
    const laid = recipe.moistureFrac ?? materialFacts[recipe.material].moistureFrac;
    const added = amountL / (recipe.massKg * (1 - laid));
    state.waterKgKg += added;
    state.waterSd = Math.hypot(Math.min(state.waterSd, felt), 0.1 * added);
  } else {
    const middle = dryBasis((limits.moistureMinFrac + limits.moistureMaxFrac) / 2);
    state.waterKgKg = Math.max(state.waterKgKg, middle);
    state.waterSd = Math.max(state.waterSd, 0.15);
  }
  // Whoever watered has done what was asked: it is dry again only when it is so by itself.
  state.dry = false;
  followDry(state, recipe, limits);
}

/** Takes in rain that was told. Rain of an amount nobody read says only that the bed may be wetter than reckoned. */
export function rainGiven(
  state: JudgeState,
  recipe: Recipe,
  limits: StageLimits,
  bed: Bed,
  rainMm: number | undefined,
): void {
  const taken = rainTaken(rainMm, recipe, bed);
  state.waterKgKg += taken;
  state.waterSd = Math.hypot(state.waterSd, rainDoubt * taken);
  followDry(state, recipe, limits);
}
