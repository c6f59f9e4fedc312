/**
 * One heap as one temperature, one moisture, two groups of microbes and their food.
 *
 * Per square metre of bed, depth d:
 *   ρ_wet c d · dT/dt = q · ρ_dry d · H − (U_top (T − T_air) + U_ground (T − T_ground)) − φ L · E                  (1)
 *   q    = Σ burn_i · A_i · γ_i(T) · f_moisture · f_air-space · F / (F + 0.3 F_0)                                  (2)
 *   dA_i = growth_i · γ_i(T) · f_moisture · A_i (1 − A_i) · dt, dying 2 % an hour above T_max,i                    (3)
 *   ρ_dry d · dX/dt = 0.5555 q ρ_dry d − E,   E = vent · (ρ_v(T_surface) − ρ_v,air)                               (4)
 *   dF   = breakdown · slow · max γ_i · f_moisture · f_air-space · dt − q · dt                                   (5)
 * F is food and X water, both per kg of dry matter. H is taken per kg of starch burnt. φ is `evaporationHeatShare`. The 0.3 of (2), at
 * which half the pace is left, and the dying of (3) are our own choice, no source.
 * It never has layers: it is a band for the grower's eye and a prior for the forecast, not a picture of the heap.
 */
import type { Act, Recipe } from '../../shared/contracts/domain/batch.ts';
import { cardinalTemperatureFactor } from '../physics/cardinal-temperature.ts';
import { freeAirSpaceFrac, haugAirSpaceFactor, haugMoistureFactor } from '../physics/haug.ts';
import { evaporationHeatShare } from '../physics/surface-film.ts';
import { saturatedVapourKgM3 } from '../physics/vapour-table.ts';
import { rainThrough } from '../physics/water-balance.ts';
import { type Bed, bedAfter } from '../profiles/bed.ts';
import { usualAirC } from '../profiles/usual-air.ts';
import type { Member } from './member.ts';

/** Heat of burning per kg of starch: 2803 kJ/mol over 162.14 g/mol, as glucose with its water of joining left out [J kg⁻¹]. */
export const heatOfBurningJKg = 17.3e6;
/** Water made per kg of starch burnt, from stoichiometry [-]. */
export const waterOfBurning = 0.5555;

/** Our own choice: half an hour is short against how fast a bed changes. */
const substepsPerHour = 2;
const substepS = 3600 / substepsPerHour;
const substepH = 1 / substepsPerHour;
/** Specific heat of liquid water [J kg⁻¹ K⁻¹], from memory. */
export const waterHeatJKgK = 4186;
/** Of dry organic matter [J kg⁻¹ K⁻¹]: 1.05 to 1.4 kJ/kg K are quoted (from memory); within it our own choice. */
export const dryHeatJKgK = 1200;
/** Latent heat of water of about 42 °C [J kg⁻¹]: steam tables give 2401 kJ/kg there. */
const latentHeatJKg = 2.4e6;
/** Of what a turn lets out, what spreading or moving does, which breaks a bed up less [-]; our own choice, no source. */
const spreadLossShare = 0.6;
/** Of the food that is out of reach, what mixing frees [-]; our own choice, no source. */
const freedByMixing = 0.4;
/** Food at which a group burns at half its pace, as a share of the food at the start [-]; our own choice, no source. */
const halfFoodShare = 0.3;
/** How long the ground under a bed takes to follow the air [h]; our own choice, no source. */
const groundFollowsH = 60;
/**
 * A skin gives off no vapour below the first moisture, and all it can from the sum of both on, wet basis [-]; our own choice, no
 * source.
 */
const drySkinFrac = 0.12;
const wetterByFrac = 0.25;
/** Another moisture factor is worked out after so many hours, or after such a change, wet basis [-]: it saves time alone. */
const dampEveryH = 6;
const dampChangeFrac = 0.01;

/** What the weather and the grower do to every member alike. */
export interface Course {
  /** Air at the start of each hour [°C]. Length `hours` + 1. */
  readonly airC: Float64Array;
  readonly hours: number;
  /** Acts by the hour in which they fall. */
  readonly actsByHour: ReadonlyMap<number, readonly Act[]>;
}

/** Fills `coreC` and `moistureFrac`, each of length `hours` + 1, from the start on. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the step of an integrator, whole.
export function runMember(
  member: Member,
  recipe: Recipe,
  course: Course,
  coreC: Float64Array,
  moistureFrac: Float64Array,
): void {
  let tempC = (course.airC[0] ?? usualAirC) + member.airOffsetK + member.startAboveAirK;
  let groundC = (course.airC[0] ?? usualAirC) + member.airOffsetK;
  let water = member.moistureFrac / (1 - member.moistureFrac);
  let food = member.burningFrac;
  let locked = member.lockedFrac;
  let slow = member.slowFrac;
  let foodStart = food;
  let meso = member.mesoStart;
  let thermo = member.thermoStart;
  let laid: Bed = { depthM: member.depthM, cover: recipe.cover };
  let moistureThen = Number.NaN;
  let damp = 1;
  let open = 1;
  // Only what the grower gave of the mass can turn litres into moisture; else from the bed as if one square metre.
  const dryMassKg =
    recipe.massKg === undefined ? undefined : recipe.massKg * (1 - (recipe.moistureFrac ?? member.moistureFrac));

  let bed = conductionOf(member, laid);

  for (let hour = 0; hour <= course.hours; hour += 1) {
    coreC[hour] = tempC;
    moistureFrac[hour] = water / (1 + water);
    const airC = (course.airC[hour] ?? usualAirC) + member.airOffsetK;
    const acts = course.actsByHour.get(hour) ?? noActs;
    for (const act of acts) {
      if (act.kind === 'turned' || act.kind === 'spread' || act.kind === 'moved') {
        tempC -= member.turnLossFrac * (act.kind === 'turned' ? 1 : spreadLossShare) * (tempC - airC);
        const freed = freedByMixing * locked;
        locked -= freed;
        food += freed;
        foodStart = Math.max(foodStart, food);
      }
      laid = bedAfter(laid, act);
      if (act.kind === 'rained') {
        water += rainThrough(act.rainMm, recipe, laid.cover) / (member.dryDensityKgM3 * laid.depthM);
      }
      if (act.kind === 'watered') {
        const added = addedWater(act, dryMassKg, water);
        // The new water comes at the temperature of the air.
        const heat = dryHeatJKgK + waterHeatJKgK * water;
        tempC = (tempC * heat + airC * waterHeatJKgK * added) / (heat + waterHeatJKgK * added);
        water += added;
      }
    }
    if (acts !== noActs) bed = conductionOf(member, laid);
    if (hour === course.hours) break;

    // What changes slowly is taken once an hour, moisture once in six, or as soon as somebody watered.
    const moisture = water / (1 + water);
    if (hour % dampEveryH === 0 || Math.abs(moisture - moistureThen) > dampChangeFrac) {
      moistureThen = moisture;
      damp = haugMoistureFactor(moisture);
      open = haugAirSpaceFactor(freeAirSpaceFrac(member.dryDensityKgM3, moisture, member.particleDensityKgM3));
    }
    const { topWm2K, groundWm2K, surfaceShare, dryKgM2, ventMS } = bed;
    const heatJm2K = dryKgM2 * (dryHeatJKgK + waterHeatJKgK * water);
    const airVapour = (member.airHumidityPct / 100) * saturatedVapourKgM3(airC);
    // The ground follows the air over days.
    groundC += (airC - groundC) / groundFollowsH;
    const wet = Math.min(1, Math.max(0, (moisture - drySkinFrac) / wetterByFrac));

    for (let sub = 0; sub < substepsPerHour; sub += 1) {
      const mesoFactor = cardinalTemperatureFactor(tempC, member.mesoSet) * damp;
      const thermoFactor = cardinalTemperatureFactor(tempC, member.thermoSet) * damp;
      const foodFactor = food / (food + halfFoodShare * foodStart);
      const burnPerH =
        (member.mesoBurnPerH * meso * mesoFactor + member.thermoBurnPerH * thermo * thermoFactor) * foodFactor * open;
      const surfaceC = airC + surfaceShare * (tempC - airC);
      const evaporationKgM2S = ventMS * wet * Math.max(0, saturatedVapourKgM3(surfaceC) - airVapour);
      const gainWm2 = (burnPerH / 3600) * dryKgM2 * heatOfBurningJKg;
      const lossWm2 =
        topWm2K * (tempC - airC) +
        groundWm2K * (tempC - groundC) +
        evaporationHeatShare * evaporationKgM2S * latentHeatJKg;
      tempC += ((gainWm2 - lossWm2) * substepS) / heatJm2K;
      water = Math.max(0, water + waterOfBurning * burnPerH * substepH - (evaporationKgM2S * substepS) / dryKgM2);
      const freed = member.breakdownPerH * slow * Math.max(meso * mesoFactor, thermo * thermoFactor) * open * substepH;
      slow -= freed;
      food = Math.max(0, food + freed - burnPerH * substepH);
      if (hour + sub * substepH >= member.lagH) {
        meso = grown(meso, member.mesoGrowthPerH * mesoFactor * substepH, tempC > member.mesoSet.maxC);
        thermo = grown(thermo, member.thermoGrowthPerH * thermoFactor * substepH, tempC > member.thermoSet.maxC);
      }
    }
  }
}

const noActs: readonly Act[] = [];

/** What stays as it is until somebody acts: heat passed on by top and ground, the skin's share in it, dry matter. */
function conductionOf(member: Member, { depthM, cover }: Bed) {
  const halfBed = depthM / 2 / member.conductivityWmK;
  const topWm2K = 1 / (1 / member.filmWm2K[cover] + halfBed);
  const groundWm2K = 1 / (1 / member.groundWm2K + halfBed);
  return {
    topWm2K,
    groundWm2K,
    surfaceShare: topWm2K / member.filmWm2K[cover],
    dryKgM2: member.dryDensityKgM3 * depthM,
    ventMS: member.ventMS[cover],
  };
}

function grown(size: number, growth: number, dying: boolean): number {
  return dying ? Math.max(1e-5, size * (1 - 0.02 * substepH)) : Math.min(1, size + growth * size * (1 - size));
}

/** Water added per kg of dry matter; without litres or without a mass, back to about the middle of a damp heap. */
function addedWater(act: Act, dryMassKg: number | undefined, water: number): number {
  if (act.amountL !== undefined && dryMassKg !== undefined) return act.amountL / dryMassKg;
  return Math.max(0.1, 1.35 - water);
}
