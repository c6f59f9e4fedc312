/** What each material brings to the expected band and the water balance: plain numbers for what is evaluated every minute. */
import { type Material, materials } from '../../shared/profiles/material-names.ts';
import { type MaterialProfile, materialProfiles } from '../../shared/profiles/materials.ts';

export interface MaterialFacts extends NonNullable<MaterialProfile['inPile']> {
  readonly particleDensityKgM3: number;
  /** Soil or compost with bran in it, rather than bran alone. */
  readonly isSoil: boolean;
}

export const materialFacts = Object.fromEntries(
  materials.map((material): [Material, MaterialFacts] => {
    const { inPile, family, particleDensityKgM3 } = materialProfiles[material];
    return [material, { ...inPile, isSoil: family === 'soil', particleDensityKgM3: particleDensityKgM3.value }];
  }),
) as Readonly<Record<Material, MaterialFacts>>;
