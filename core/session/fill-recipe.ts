/**
 * What a bed is reckoned with where nobody said: each value that stands for a missing fact, with where it comes from. What was given
 * is never touched, and what is assumed is never stored.
 */
import type { Assumption, Cover, GivenRecipe, LaidFact, Recipe } from '../../shared/contracts/domain/batch.ts';
import type { Stage } from '../../shared/names.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { type StageLimits, stageLimits } from '../../shared/stage.ts';
import { usualMoistureFrac } from '../estimate/follow-water.ts';
import { usualDoseFrac } from '../expect/member.ts';

/** Most cover a bed with what breathes; common practice, no source. */
const usualCover: Cover = 'breathable';

export interface FilledRecipe {
  readonly recipe: Recipe;
  readonly assumed: readonly Assumption[];
}

/** @param inKg The sum of what the bed was made of; null where that is not known [kg]. */
export function fillRecipe(
  stage: Stage,
  given: GivenRecipe,
  limits: StageLimits,
  inKg: number | null = null,
): FilledRecipe {
  const material = given.material ?? stageProfiles[stage].usualMaterial;
  const depthM = given.depthM ?? usualDepthM(stage);
  const cover = given.cover ?? usualCover;
  const massKg = given.massKg ?? inKg ?? undefined;
  const assumed: Assumption[] = [];
  const assume = (fact: LaidFact, value: Assumption['value'] | undefined, origin: Assumption['origin']) => {
    if (given[fact] === undefined && value !== undefined) assumed.push({ fact, value, origin });
  };
  assume('material', material, 'usual-of-stage');
  assume('depthM', depthM, 'usual-of-stage');
  assume('massKg', massKg, 'sum-of-inputs');
  assume('moistureFrac', usualMoistureFrac(material, limits), 'usual-of-material');
  assume('doseFrac', usualDoseFrac, 'own-estimate');
  assume('cover', cover, 'usual-of-stage');
  assume('shelter', 'open', 'counted-as');
  return { recipe: { ...given, material, depthM, cover, ...(massKg !== undefined && { massKg }) }, assumed };
}

/** The middle of what is usual, to a centimetre [m]. */
function usualDepthM(stage: Stage): number {
  const { depthMinM, depthMaxM } = stageLimits[stage];
  return Math.round((depthMinM + depthMaxM) * 50) / 100;
}
