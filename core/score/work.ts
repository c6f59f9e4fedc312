/**
 * core/score/work.ts: how hard a bed works, from the heat it must be making to stay as warm as it is.
 *
 * Takes:  the core now and an hour ago, the air, the bed, its water.
 * Gives:  food burnt in the hour, against all the food such a bed has at first.
 * Never:  is exact: conductivity and cover are those of a middling bed, so it is good to about a factor of two.
 *
 *   q = { C dT/dt + U_top (T − T_air) + U_ground (T − T_air) + L E } / ( ρ_dry d H )                                (1)
 */
import type { Recipe } from '../../shared/batch.ts';
import { latentHeatJKg } from '../../shared/water.ts';
import { heatOfBurningJKg } from '../curve/lumped-model.ts';
import { materialFacts } from '../curve/material-facts.ts';
import type { Bed } from '../judge/bed.ts';
import { hourlyLoss } from '../moisture/balance.ts';

/** As the ensemble's members on the median; see core/curve/member.ts. */
const filmWm2K = { open: 8, breathable: 3.5, closed: 2.5 } as const;
const groundWm2K = 1.6;
const branConductivityWmK = 0.28;
const soilConductivityWmK = 0.5;

/** @returns Share of the bed's food burnt in the hour [-]; a little below 0 while a bed cools faster than expected. */
export function hourWork(
  coreC: number,
  coreBeforeC: number,
  airC: number,
  recipe: Recipe,
  bed: Bed,
  waterKgKg: number,
): number {
  const facts = materialFacts[recipe.material];
  const soil = recipe.material === 'soil-mix' || recipe.material === 'compost-mix';
  const dryKgM2 = facts.dryDensityKgM3 * bed.depthM;
  const halfBed = bed.depthM / 2 / (soil ? soilConductivityWmK : branConductivityWmK);
  const lossWm2K = 1 / (1 / filmWm2K[bed.cover] + halfBed) + 1 / (1 / groundWm2K + halfBed);
  const storedWm2 = (dryKgM2 * (1200 + 4186 * waterKgKg) * (coreC - coreBeforeC)) / 3600;
  const evaporated = hourlyLoss(coreC, airC, 70, recipe, bed.cover, bed.depthM) * dryKgM2;
  const steamWm2 = (0.6 * evaporated * latentHeatJKg(Math.min(95, Math.max(0, coreC)))) / 3600;
  const stillWm2 = (0.6 * hourlyLoss(airC, airC, 70, recipe, bed.cover, bed.depthM) * dryKgM2 * 2.45e6) / 3600;
  const madeWm2 = storedWm2 + lossWm2K * (coreC - airC) + steamWm2 - stillWm2;
  return (madeWm2 * 3600) / (dryKgM2 * heatOfBurningJKg) / facts.burningFrac;
}
