/**
 * How much water brings a bed back into its band. It never advises more than the bed holds against gravity: water
 * cannot be taken out again.
 */
import type { Recipe } from '../../shared/contracts/domain/batch.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { dryBasis, wetBasis } from '../physics/water-balance.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import type { Water } from './correct-water.ts';

export interface WaterToAdd {
  /** Null when the mass of the bed is not known. */
  readonly litres: number | null;
  /** Litres per 10 kg of the bed as it is now. */
  readonly litresPer10Kg: number;
  readonly fromFrac: number;
  readonly toFrac: number;
}

/**
 * Water from the estimate up to the middle of the band; half of the doubt is held back.
 *
 *   W = m_dry · ( X_goal − X − s / 2 ),   X_goal ≤ X_holds
 *
 * @returns Null when the bed is not below the middle of its band.
 * @example 100 kg laid at 60 % (40 kg dry), now sure at 45 %, wheat bran, band 50-65 %: goal 57.5 %, 21.4 L.
 */
export function waterToAdd(water: Water, recipe: Recipe, limits: StageLimits): WaterToAdd | null {
  const facts = materialFacts[recipe.material];
  const toFrac = Math.min(facts.holdsFrac, (limits.moistureMinFrac + limits.moistureMaxFrac) / 2);
  const perDry = dryBasis(toFrac) - water.waterKgKg - water.waterSd / 2;
  if (perDry <= 0) return null;
  const dryKg = recipe.massKg === undefined ? null : recipe.massKg * (1 - (recipe.moistureFrac ?? facts.moistureFrac));
  return {
    litres: dryKg === null ? null : dryKg * perDry,
    litresPer10Kg: (10 * perDry) / (1 + water.waterKgKg),
    fromFrac: wetBasis(water.waterKgKg),
    toFrac,
  };
}
