/**
 * How hard a bed works, from the heat it must be making to stay as warm as it is.
 *
 *   q = { C dT/dt + (T_top − T_air) / R_top + (T_base − T_ground) / R_ground + φ (L E − L_0 E_0) } / ( ρ_dry d H )                     (1)
 *
 * φ is `evaporationHeatShare`; E_0 is what a bed as warm as the air would lose, and is not the bed's work. Where no probe lies under the skin or at the foot, the core stands for it and the half bed between is counted into R.
 * A bed short of air works at its top alone: its core then tells little, its top all. It never is exact: conductivity
 * and cover are those of a middling bed, so it is good to about a factor of two.
 */
import type { Recipe } from '../../shared/contracts/domain/batch.ts';
import { latentHeatJKg } from '../../shared/water.ts';
import { dryHeatJKgK, heatOfBurningJKg, waterHeatJKgK } from '../expect/lumped-model.ts';
import { cardinalTemperatureFactor, mesophilicSet, thermophilicSet } from '../physics/cardinal-temperature.ts';
import { branConductivityWmK, soilConductivityWmK } from '../physics/conductivity.ts';
import { evaporationHeatShare, groundFilmWm2K, surfaceFilmWm2K } from '../physics/surface-film.ts';
import { hourlyLoss } from '../physics/water-balance.ts';
import type { Bed } from '../profiles/bed.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import { unmeasuredHumidityPct } from './unmeasured-air.ts';

/** Probes of the top and the base lie about so far from the skin and the ground, a sixth of the bed at most [m]; common practice, no source. */
export const probeDepthM = 0.05;
/** Food a full-grown culture burns in an hour at its best temperature, at most [-]: twice the ensemble's median (core/expect/member.ts). */
const fullPerH = 2 / 24;
/** Latent heat of water of about 20 °C [J kg⁻¹]: steam tables give 2453 kJ/kg there. */
const airLatentHeatJKg = 2.45e6;
/** Shares of the bed that top, core and base stand for [-]; our own choice, no source. */
const part = { top: 0.25, core: 0.5, base: 0.25 } as const;

/** Hourly means [°C]; null where nothing is measured that may be believed. */
export interface BedHeat {
  readonly coreC: number;
  readonly topC: number | null;
  readonly baseC: number | null;
}

export interface AirAround {
  /** Mean of the hour, and eased over a day [°C]. */
  readonly hourC: number;
  readonly dayC: number;
}

/** @returns Share of the bed's food burnt in the hour [-]; a little below 0 while a bed cools faster than expected. */
export function hourWork(
  now: BedHeat,
  before: BedHeat,
  air: AirAround,
  recipe: Recipe,
  bed: Bed,
  waterKgKg: number,
): number {
  const facts = materialFacts[recipe.material];
  const conductivityWmK = facts.isSoil ? soilConductivityWmK : branConductivityWmK;
  const dryKgM2 = facts.dryDensityKgM3 * bed.depthM;
  const halfBed = bed.depthM / 2 / conductivityWmK;
  const probeResistance = Math.min(probeDepthM, bed.depthM / 6) / conductivityWmK;
  const upWm2 =
    now.topC === null
      ? (now.coreC - air.dayC) / (1 / surfaceFilmWm2K[bed.cover] + halfBed)
      : (now.topC - air.hourC) / (1 / surfaceFilmWm2K[bed.cover] + probeResistance);
  const downWm2 =
    now.baseC === null
      ? (now.coreC - air.dayC) / (1 / groundFilmWm2K + halfBed)
      : (now.baseC - air.dayC) / (1 / groundFilmWm2K + probeResistance);
  const storedWm2 = (dryKgM2 * (dryHeatJKgK + waterHeatJKgK * waterKgKg) * meanRiseK(now, before)) / 3600;
  const lost = (coreC: number): number =>
    hourlyLoss({ coreC, topC: null, airC: air.dayC }, unmeasuredHumidityPct, waterKgKg, recipe, bed) * dryKgM2;
  const steamWm2 =
    (evaporationHeatShare * lost(now.coreC) * latentHeatJKg(Math.min(95, Math.max(0, now.coreC)))) / 3600;
  const stillWm2 = (evaporationHeatShare * lost(air.dayC) * airLatentHeatJKg) / 3600;
  const madeWm2 = storedWm2 + upWm2 + downWm2 + steamWm2 - stillWm2;
  const share = (madeWm2 * 3600) / (dryKgM2 * heatOfBurningJKg) / facts.burningFrac;
  // More than its warmest position allows it cannot burn: what a cold bed shows beyond that is the weather in its ground and skin.
  const warmestC = Math.max(now.coreC, now.topC ?? now.coreC, now.baseC ?? now.coreC);
  return Math.min(share, mostPerH(warmestC));
}

/** How much more work an hour of a bed is reckoned by each kelvin that its air is taken too cold [K⁻¹]: (1), where its core stands for all of it. */
export function workPerK(recipe: Recipe, bed: Bed): number {
  const facts = materialFacts[recipe.material];
  const halfBed = bed.depthM / 2 / (facts.isSoil ? soilConductivityWmK : branConductivityWmK);
  const lostWm2K = 1 / (1 / surfaceFilmWm2K[bed.cover] + halfBed) + 1 / (1 / groundFilmWm2K + halfBed);
  return (lostWm2K * 3600) / (facts.dryDensityKgM3 * bed.depthM * heatOfBurningJKg * facts.burningFrac);
}

/** @example mostPerH(10) // => 0.00398: a bed at 10 °C burns a tenth of its food a day at most; at 5 °C and below nothing. */
export function mostPerH(warmestC: number): number {
  const factor = Math.max(
    cardinalTemperatureFactor(warmestC, mesophilicSet),
    cardinalTemperatureFactor(warmestC, thermophilicSet),
  );
  return fullPerH * factor;
}

/** Rise of the bed's mean; a position without a probe moves as the core does. */
function meanRiseK(now: BedHeat, before: BedHeat): number {
  const core = now.coreC - before.coreC;
  const top = now.topC === null || before.topC === null ? core : now.topC - before.topC;
  const base = now.baseC === null || before.baseC === null ? core : now.baseC - before.baseC;
  return part.core * core + part.top * top + part.base * base;
}
