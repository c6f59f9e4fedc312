/**
 * core/moisture/correct.ts: what is measured of a bed's moisture, laid against what the balance says.
 *
 * Takes:  the estimate with its standard deviation, a measurement with its own.
 * Gives:  the estimate that both make together.
 * Never:  throws the balance away for one squeeze of a hand: each counts by how sure it is.
 */
import type { Recipe } from '../../shared/batch.ts';
import { materialFacts } from '../curve/material-facts.ts';
import type { MoistureSample } from '../judge/setup.ts';
import { dryBasis, heldKgKg } from './balance.ts';

export interface Water {
  waterKgKg: number;
  waterSd: number;
}

/**
 * Squeeze of a handful, as a share of the water that the bed can hold: mean and standard deviation. What a hand feels is water that
 * is free to move, and soil has less to hold than bran. In wheat bran, which holds 67 %, these are 42, 55, 63 and 73 % of the wet
 * mass: two or three drops are 60-65 % (from memory), the others common practice; that they go by what is held is our own.
 */
const squeezed = {
  crumbles: [0.357, 0.09],
  holds: [0.602, 0.1],
  drips: [0.839, 0.11],
  streams: [1.332, 0.34],
} as const;
/** A weighed and dried sample is exact for its handful; the bed differs by about two points from place to place. */
const weighedSd = 0.02;

/**
 * Two estimates by their certainty: X = X1 + K (X2 − X1), K = s1² / (s1² + s2²), s² = (1 − K) s1².
 *
 * @example correctWater({ waterKgKg: 1, waterSd: 0.2 }, 1.4, 0.2) // => { waterKgKg: 1.2, waterSd: 0.141 }
 */
export function correctWater(water: Water, measuredKgKg: number, measuredSd: number): void {
  const gain = water.waterSd ** 2 / (water.waterSd ** 2 + measuredSd ** 2);
  water.waterKgKg += gain * (measuredKgKg - water.waterKgKg);
  water.waterSd *= Math.sqrt(1 - gain);
}

export function correctBySample(water: Water, sample: MoistureSample, { material }: Recipe): void {
  if (sample.kind === 'weighed') {
    correctWater(water, dryBasis(sample.moistureFrac), weighedSd / (1 - sample.moistureFrac) ** 2);
    return;
  }
  const holds = heldKgKg(material);
  const [share, sd] = squeezed[sample.feel];
  correctWater(water, share * holds, sd * holds);
}

/**
 * A volumetric probe: X = θ · 1000 / ρ_dry.
 *
 * @param waterVolumePct Volumetric water, θ [%].
 * @remarks Good to about 4 % of volume uncalibrated, and to how well the dry density is known (12 to 35 %); an hourly reading
 * counts a tenth of that certainty, since one hour's error is the next one's as well.
 */
export function correctByProbe(water: Water, waterVolumePct: number, recipe: Recipe): void {
  const { dryDensityKgM3, dryDensityLogSd } = materialFacts[recipe.material];
  const measured = (waterVolumePct / 100) * (1000 / dryDensityKgM3);
  const sd = Math.hypot(0.04 * (1000 / dryDensityKgM3), dryDensityLogSd * measured);
  correctWater(water, measured, sd * Math.sqrt(10));
}

/** Pore air clearly off saturation for hours: the mass near the probe holds less than about 30 % (Kelvin equation and wheat isotherm). */
export function correctByDryAir(water: Water): void {
  if (water.waterKgKg > 0.4) correctWater(water, 0.35, 0.25);
}
