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
import { dryBasis, hourlyLoss, wetBasis } from './balance.ts';
import { correctByDryAir, correctByProbe } from './correct.ts';

export function startWater(recipe: Recipe, limits: StageLimits): { waterKgKg: number; waterSd: number } {
  const facts = materialFacts[recipe.material];
  const laid = recipe.moistureFrac ?? Math.min(limits.moistureMaxFrac, facts.moistureFrac);
  const frac = Math.min(0.9, Math.max(0.05, laid));
  const sdFrac = recipe.moistureFrac === undefined ? facts.moistureSd : 0.02;
  return { waterKgKg: dryBasis(frac), waterSd: sdFrac / (1 - frac) ** 2 };
}

/** How far below the stage's band the estimate must lie before it counts as dry: the balance is good to a few points. */
export const dryMarginFrac = 0.045;
/** Air humidity where nobody measures it [%]: dry weather takes far more out of an open bed, so what that would take is doubt. */
const unmeasuredHumidityPct = 70;
const unmeasuredHumiditySdPct = 25;
/** Water that air of 70 %RH never takes out, per dry matter: wheat holds 17 % of its dry mass then (ASAE D245, from memory). */
const boundKgKg = 0.17;
/** Hours of clearly unsaturated pore air that count. */
export const dryAirNeededH = 3;
const dryDeadbandFrac = 0.015;

/** The estimate less half its standard deviation; less all of it where nobody told or measured what was laid. */
function doubtedFrac(state: JudgeState, recipe: Recipe): number {
  const known = recipe.moistureFrac !== undefined || state.samplesDone > 0;
  return wetBasis(Math.max(0, state.waterKgKg - (known ? 0.5 : 1) * state.waterSd));
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
  const humidity = state.positions.air?.humidity?.value;
  const airHumidityPct = humidity === undefined ? unmeasuredHumidityPct : Math.min(100, Math.max(5, humidity));
  // A bed that dries gives its water up ever more slowly: falling rate from about the water it holds at 50 %.
  const falling = Math.min(1, Math.max(0, state.waterKgKg - boundKgKg) / (1 - boundKgKg));
  const loss = falling * hourlyLoss(coreC, airC, airHumidityPct, recipe, bed.cover, bed.depthM);
  // Burning makes water and takes dry matter away: both raise the water per dry matter.
  const burnt = burntShare * materialFacts[recipe.material].burningFrac;
  const made = (waterOfBurning + state.waterKgKg) * burnt;
  state.waterKgKg = Math.max(0.02, state.waterKgKg - loss + made);
  // The vapour transfer is known to about a third.
  state.waterSd += 0.35 * loss + 0.3 * made;
  if (humidity === undefined) {
    const drierPct = unmeasuredHumidityPct - unmeasuredHumiditySdPct;
    state.waterSd += falling * hourlyLoss(coreC, airC, drierPct, recipe, bed.cover, bed.depthM) - loss;
  }
  // What the bed cannot hold drains away, half of it in an hour.
  const holds = dryBasis(materialFacts[recipe.material].holdsFrac);
  if (state.waterKgKg > holds) state.waterKgKg = holds + (state.waterKgKg - holds) / 2;
  const probe = state.positions.core?.moisture;
  if (probe != null && state.atMs - probe.atMs < msPerHour) correctByProbe(state, probe.value, recipe);
  if ((state.positions.core?.dryAirH ?? 0) >= dryAirNeededH) correctByDryAir(state);
  const floor = limits.moistureMinFrac - dryMarginFrac;
  state.dry = lowLimit(state.dry, doubtedFrac(state, recipe), floor, dryDeadbandFrac);
}

/** Takes in a watering. Without litres or mass it is taken as bringing the bed to the middle of its band. */
export function waterGiven(state: JudgeState, recipe: Recipe, limits: StageLimits, amountL: number | undefined): void {
  if (amountL !== undefined && recipe.massKg !== undefined) {
    const laid = recipe.moistureFrac ?? materialFacts[recipe.material].moistureFrac;
    const added = amountL / (recipe.massKg * (1 - laid));
    state.waterKgKg += added;
    state.waterSd = Math.hypot(state.waterSd, 0.1 * added);
  } else {
    const middle = dryBasis((limits.moistureMinFrac + limits.moistureMaxFrac) / 2);
    state.waterKgKg = Math.max(state.waterKgKg, middle);
    state.waterSd = Math.max(state.waterSd, 0.15);
  }
  state.dry = doubtedFrac(state, recipe) < limits.moistureMinFrac - dryMarginFrac;
}
