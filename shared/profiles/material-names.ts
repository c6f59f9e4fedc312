/** Which materials there are. */
import { type MaterialProfile, materialProfiles } from './materials.ts';

type Profiles = typeof materialProfiles;
type With<Part extends keyof MaterialProfile> = {
  [Name in keyof Profiles]: Profiles[Name] extends Required<Pick<MaterialProfile, Part>> ? Name : never;
}[keyof Profiles];

/** What a pile is said to be made of. */
export type Material = With<'inPile'>;
/** What heaps are mixed from. */
export type Ingredient = With<'ingredient'>;

export const materials = namesWith<Material>('inPile');
export const ingredients = namesWith<Ingredient>('ingredient');

/** As they are declared; what is none of them comes last. */
function namesWith<Name extends string>(part: 'inPile' | 'ingredient'): readonly Name[] {
  const names = Object.entries<MaterialProfile>(materialProfiles).flatMap(([name, profile]) =>
    profile[part] === undefined ? [] : [name as Name],
  );
  return names.sort((one, other) => Number(one === 'other') - Number(other === 'other'));
}
