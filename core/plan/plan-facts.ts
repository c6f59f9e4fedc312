/** What the planner takes where nobody measured. It never stands against a grower's own weighing: each may be overridden. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Ingredient } from '../../shared/profiles/material-names.ts';
import { type Fact, type MaterialProfile, materialProfiles } from '../../shared/profiles/materials.ts';

export type IngredientFacts = Omit<NonNullable<MaterialProfile['ingredient']>, 'laidAs'> &
  Pick<MaterialProfile, 'family' | 'particleDensityKgM3'> & {
    /** As it stands within a sentence. */
    readonly name: Message;
  };

export function ingredientFacts(material: Ingredient): IngredientFacts {
  const { name, family, particleDensityKgM3, ingredient } = materialProfiles[material];
  return {
    ...ingredient,
    family,
    particleDensityKgM3,
    name: material === 'other' ? message('material.unnamed') : name,
  };
}

/** Least share of the volume that should be air [-]; its source is what is said of it (`origin.air-floor`). */
export const freeAirSpaceFloor: Fact = { value: 0.3, origin: message('origin.air-floor') };

/** Share of all the liquid to give before the first squeeze test [-]; `origin.first-share` says where from. */
export const firstShare: Fact = { value: 0.75, origin: message('origin.first-share') };

/** Weight of a litre of diluted starter [kg]. */
export const starterKgL: Fact = { value: 1, origin: message('origin.starter-weight') };
