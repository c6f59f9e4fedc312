/**
 * What the grower wrote down when the bed was laid: what was given, and the mass it comes to. It never knows better than
 * the grower: where the moisture was misjudged, so is the mass.
 */
import type { Recipe } from '../../../../shared/contracts/domain/batch.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';

/** As bought, wet basis; that of rice bran is the same. */
const branMoistureFrac = materialProfiles['wheat-bran'].ingredient.stored.moistureFrac.value;

/** Bran that went in [kg]. */
export function branKg({ recipe }: PracticeScenario): number {
  return recipe.ingredients
    .filter(({ material }) => material === 'wheat-bran' || material === 'rice-bran')
    .reduce((sum, { massKg }) => sum + massKg, 0);
}

export function laidRecipe(scenario: PracticeScenario): Recipe & { readonly massKg: number } {
  const { given } = scenario;
  const massKg = (branKg(scenario) * (1 - branMoistureFrac)) / (1 - given.moistureFrac);
  return { ...given, massKg: Math.round(massKg) };
}
