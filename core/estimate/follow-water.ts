/** The water balance of the running batch, one hour at a time. */
import { z } from 'zod';
import type { Cover, Recipe } from '../../shared/contracts/domain/batch.ts';
import type { Material } from '../../shared/profiles/material-names.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { lowLimit } from '../alarms/deadband.ts';
import { waterOfBurning } from '../expect/lumped-model.ts';
import {
  dryBasis,
  type HourHeat,
  heldKgKg,
  hourlyLoss,
  lossDoubtOf,
  rainTaken,
  wetBasis,
} from '../physics/water-balance.ts';
import type { Bed } from '../profiles/bed.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { usualAirC } from '../profiles/usual-air.ts';
import { correctByDryAir, correctByProbe, type Water } from './correct-water.ts';
import type { Hours } from './hours.ts';
import type { Positions } from './position.ts';
import { unmeasuredHumidityPct, unmeasuredHumiditySdPct } from './unmeasured-air.ts';

export const waterSchema = z.object({
  /** Estimated water per dry matter [-] and its standard deviation. */
  waterKgKg: z.number(),
  waterSd: z.number(),
  /** Dry by the balance, with the deadband counted in. */
  dry: z.boolean(),
  /** How many notes, and acts of the setup, have been taken in. */
  notedDone: z.number(),
  actsDone: z.number(),
  /** Closed hours in which nobody measured the core, since a sample last counted them in its doubt. */
  unwatchedH: z.number(),
});
/** The estimate, whether it stands as dry, and how far people's acts and notes are in it. */
export type WaterState = z.infer<typeof waterSchema>;

/** Moisture taken for a bed of which nobody said it, wet basis [-]. */
export function usualMoistureFrac(material: Material, limits: StageLimits): number {
  return Math.min(limits.moistureMaxFrac, materialFacts[material].moistureFrac);
}

export function startWater(recipe: Recipe, limits: StageLimits): WaterState {
  const facts = materialFacts[recipe.material];
  const laid = recipe.moistureFrac ?? usualMoistureFrac(recipe.material, limits);
  const frac = Math.min(0.9, Math.max(0.05, laid));
  const sdFrac = recipe.moistureFrac === undefined ? facts.moistureSd : 0.02;
  return {
    waterKgKg: dryBasis(frac),
    waterSd: sdFrac / (1 - frac) ** 2,
    dry: false,
    notedDone: 0,
    actsDone: 0,
    unwatchedH: 0,
  };
}

/**
 * How far below the stage's band the estimate must lie before it counts as dry: the balance is good to a few points [-];
 * our own choice, no source.
 */
export const dryMarginFrac = 0.033;
/**
 * A skin that is colder than the air beside it gives water to dry air: so much drier for each kelvin, and the surer [%/K]. A wet
 * bulb does the same with nothing in its way; under straw the skin is nearer to one. Fitted as the loss is, core/physics/water-balance.ts.
 */
const drierPerK: Record<Cover, number> = { open: 12, breathable: 5.5, closed: 0 };
/** And its standard deviation less by so much [%/K], up to so cold a skin [K]; fitted likewise. */
const surerPerK = 4;
const mostCoolingK = 3;
/** What is not ready food burns as well, and the work is reckoned low: in all so much for each part of ready food; our own, fitted. */
const slowToo = 1.5;
/**
 * Nobody waters without a handful in the hand: what may still be off then, per dry matter [-]; a squeeze alone is good to 0.2;
 * our own choice, no source.
 */
const felt = 0.25;
/** How far a rain somebody noted may be off for this bed, as a share; common practice, no source. */
const rainDoubt = 0.3;
/** Hours of clearly unsaturated pore air that count [h]; our own choice, no source. */
export const dryAirNeededH = 3;
/** What is dry is dry until the estimate is so far above that margin [-]; our own choice, no source. */
const dryDeadbandFrac = 0.025;

/** The estimate less half its standard deviation. */
function doubtedFrac({ waterKgKg, waterSd }: Water): number {
  return wetBasis(Math.max(0, waterKgKg - waterSd / 2));
}

/** A shower that does not bring the bed clear of the limit takes nothing back. */
export function followDry(water: WaterState, limits: StageLimits): void {
  const floor = limits.moistureMinFrac - dryMarginFrac;
  water.dry = lowLimit(water.dry, doubtedFrac(water), floor, dryDeadbandFrac);
}

/** What the air beside the bed holds [%]: as measured, else guessed by how much the skin cools below it where that is measured. */
function airHumidity(
  { air, top }: Readonly<Positions>,
  cover: Cover,
  isTopMeasured: boolean,
): { meanPct: number; sdPct: number } {
  const measuredPct = air?.humidity?.value;
  if (measuredPct !== undefined) return { meanPct: Math.min(100, Math.max(5, measuredPct)), sdPct: 0 };
  const topC = isTopMeasured ? top?.hour.dayMeanC : null;
  const airC = air?.hour.dayMeanC;
  const coolingK = topC == null || airC == null ? 0 : Math.min(mostCoolingK, Math.max(0, airC - topC));
  return {
    meanPct: unmeasuredHumidityPct - drierPerK[cover] * coolingK,
    sdPct: unmeasuredHumiditySdPct - (cover === 'closed' ? 0 : surerPerK * Math.min(1.5, coolingK)),
  };
}

/** What the balance goes by beside the hour's heat. */
export interface WaterSight {
  readonly hours: Readonly<Hours>;
  readonly positions: Readonly<Positions>;
}

export function followWater(
  water: WaterState,
  { hours, positions }: WaterSight,
  { recipe, limits, assumed = [] }: PileSetup,
  bed: Bed,
  heat: HourHeat,
  burntShare: number,
): void {
  const { meanPct, sdPct } = airHumidity(positions, bed.cover, heat.topC !== null);
  const lossAt = (humidityPct: number): number => hourlyLoss(heat, humidityPct, water.waterKgKg, recipe, bed);
  const loss = lossAt(meanPct);
  const unmeasured = sdPct === 0 ? 0 : lossAt(meanPct - sdPct) - loss;
  // Burning makes water and takes dry matter away: both raise the water per dry matter.
  const burnt = burntShare * materialFacts[recipe.material].burningFrac * slowToo;
  const made = (waterOfBurning + water.waterKgKg) * burnt;
  water.waterKgKg = Math.max(0.02, water.waterKgKg - loss + made);
  water.waterSd += Math.hypot(lossDoubtOf(recipe, bed.cover) * loss, unmeasured) + 0.15 * made;
  // What the bed cannot hold drains away, half of it in an hour.
  const holds = heldKgKg(recipe.material);
  if (water.waterKgKg > holds) water.waterKgKg = holds + (water.waterKgKg - holds) / 2;
  const probe = positions.core?.moisture;
  if (probe != null && hours.atMs - probe.atMs < msPerHour) {
    correctByProbe(water, probe.value, recipe, !assumed.some(({ fact }) => fact === 'material'));
  }
  if ((positions.core?.hour.dryAirH ?? 0) >= dryAirNeededH) correctByDryAir(water);
  followDry(water, limits);
}

/** Nobody knows how hot such a bed ran, nor in what air: twice the loss of one at work is its doubt; our own, no source. */
const unwatchedShare = 2;

/**
 * How much less sure the estimate is for each hour in which nobody measures the core.
 *
 * @returns Standard deviation of the water per dry matter [-/h].
 */
export function unwatchedSdPerH(waterKgKg: number, recipe: Recipe, limits: StageLimits, bed: Bed): number {
  const coreC = (limits.comfortMinC + limits.comfortMaxC) / 2;
  return (
    unwatchedShare * hourlyLoss({ coreC, topC: null, airC: usualAirC }, unmeasuredHumidityPct, waterKgKg, recipe, bed)
  );
}

/** Takes in a watering. Without litres or mass it is taken as bringing the bed to the middle of its band. */
export function waterGiven(water: WaterState, recipe: Recipe, limits: StageLimits, amountL: number | undefined): void {
  if (amountL !== undefined && recipe.massKg !== undefined) {
    const laid = recipe.moistureFrac ?? materialFacts[recipe.material].moistureFrac;
    const added = amountL / (recipe.massKg * (1 - laid));
    water.waterKgKg += added;
    water.waterSd = Math.hypot(Math.min(water.waterSd, felt), 0.1 * added);
  } else {
    const middle = dryBasis((limits.moistureMinFrac + limits.moistureMaxFrac) / 2);
    water.waterKgKg = Math.max(water.waterKgKg, middle);
    water.waterSd = Math.max(water.waterSd, 0.15);
  }
  // Whoever watered has done what was asked: it is dry again only when it is so by itself.
  water.dry = false;
  followDry(water, limits);
}

/** Takes in rain that somebody noted. Rain of an amount nobody read says only that the bed may be wetter than reckoned. */
export function rainGiven(
  water: WaterState,
  recipe: Recipe,
  limits: StageLimits,
  bed: Bed,
  rainMm: number | undefined,
): void {
  const taken = rainTaken(rainMm, recipe, bed);
  water.waterKgKg += taken;
  water.waterSd = Math.hypot(water.waterSd, rainDoubt * taken);
  followDry(water, limits);
}
