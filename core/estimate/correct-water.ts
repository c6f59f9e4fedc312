/**
 * What is measured of a bed's moisture, laid against what the balance says. It never throws the balance away for one
 * squeeze of a hand: each counts by how sure it is.
 */
import type { Recipe } from '../../shared/contracts/domain/batch.ts';
import { sampleMoistureFrac } from '../../shared/entry.ts';
import { dryBasis, heldKgKg } from '../physics/water-balance.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import type { NotedFacts } from '../profiles/noted.ts';

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
  pours: [1.332, 0.34],
} as const;
/**
 * A weighed and dried sample is exact for its handful; the bed differs by about two points from place to place [-];
 * our own choice, no source.
 */
const weighedSd = 0.02;
/** The skin and the edge dry first, so a handful from there tells less of the whole; our own, no source. */
const outerDoubt = 2;

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

export interface WaterSample {
  readonly kgKg: number;
  readonly sd: number;
}

/** Water per dry matter by a person's hand or scales, with its standard deviation; null where a note says nothing of it. */
export function sampleWater(what: NotedFacts, { material }: Recipe): WaterSample | null {
  if (what.kind === 'squeeze') {
    const holds = heldKgKg(material);
    const [share, sd] = squeezed[what.feel];
    const outer = what.place === 'skin' || what.place === 'edge' ? outerDoubt : 1;
    return { kgKg: share * holds, sd: outer * sd * holds };
  }
  if (what.kind !== 'sample' || what.dryG === undefined) return null;
  const frac = Math.min(mostSampleFrac, sampleMoistureFrac(what.wetG, what.dryG));
  return { kgKg: dryBasis(frac), sd: weighedSd / (1 - frac) ** 2 };
}

/** No bed holds more: a sample beyond it was weighed wrong [-]; our own choice, no source. */
const mostSampleFrac = 0.95;

/**
 * Takes in a sample by the certainty of both. Where they lie further apart than their doubts allow, one of them is wrong by more
 * than it owns to, and nobody knows which: the doubt of the result grows by as much, its mean stays.
 *
 *   s ← s · max(1, |X2 − X1| / √(s1² + s2²))
 *
 * @see R. T. Birge, Phys. Rev. 40 (1932) 207, and the scale factor of the Particle Data Group's averages (both from memory).
 * @example correctBySample({ waterKgKg: 1, waterSd: 0.1 }, { kgKg: 1.6, sd: 0.1 }) // => { waterKgKg: 1.3, waterSd: 0.3 }
 */
export function correctBySample(water: Water, { kgKg, sd }: WaterSample): void {
  const apart = Math.abs(kgKg - water.waterKgKg) / Math.hypot(water.waterSd, sd);
  correctWater(water, kgKg, sd);
  water.waterSd *= Math.max(1, apart);
}

/**
 * A volumetric probe: X = θ · 1000 / ρ_dry.
 *
 * @param waterVolumePct Volumetric water, θ [%].
 * @param isMaterialGiven Where nobody said what the bed is made of, its dry density is as uncertain as of anything.
 * @remarks Good to about 4 % of volume uncalibrated, and to how well the dry density is known (12 to 35 %); an hourly reading
 * counts a tenth of that certainty, since one hour's error is the next one's as well.
 */
export function correctByProbe(water: Water, waterVolumePct: number, recipe: Recipe, isMaterialGiven = true): void {
  const { dryDensityKgM3 } = materialFacts[recipe.material];
  const dryDensityLogSd = isMaterialGiven
    ? materialFacts[recipe.material].dryDensityLogSd
    : Math.max(materialFacts[recipe.material].dryDensityLogSd, materialFacts.other.dryDensityLogSd);
  const measured = (waterVolumePct / 100) * (1000 / dryDensityKgM3);
  const sd = Math.hypot(0.04 * (1000 / dryDensityKgM3), dryDensityLogSd * measured);
  correctWater(water, measured, sd * Math.sqrt(10));
}

/** Pore air clearly off saturation for hours: the mass near the probe holds less than about 30 % (Kelvin equation and wheat isotherm). */
export function correctByDryAir(water: Water): void {
  if (water.waterKgKg > 0.4) correctWater(water, 0.35, 0.25);
}
