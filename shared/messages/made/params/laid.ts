// Made from ../../en/laid.json by `npm run messages`; change that instead.
import type { Amount, NoParams, Part } from '../../param-types.ts';

export interface LaidParams {
  'laid.what.material': NoParams;
  'laid.what.depthM': NoParams;
  'laid.what.massKg': NoParams;
  'laid.what.moistureFrac': NoParams;
  'laid.what.doseFrac': NoParams;
  'laid.what.cover': NoParams;
  'laid.what.shelter': NoParams;
  'laid.depth': { readonly bedCm: Amount };
  'laid.mass': { readonly laidKg: Amount };
  'laid.moisture': { readonly moistureFrac: number };
  'laid.dose': { readonly dosePct: number };
  'laid.cover.open': NoParams;
  'laid.cover.breathable': NoParams;
  'laid.cover.closed': NoParams;
  'laid.shelter.indoors': NoParams;
  'laid.shelter.roof': NoParams;
  'laid.shelter.open': NoParams;
  'laid.given': { readonly valueCapitalPart: Part };
  'laid.assumed': { readonly originPart: Part; readonly valuePart: Part };
  'laid.usual-of-stage': { readonly isMiddle: boolean; readonly stage: 'bran' | 'other' | 'soil' };
  'laid.usual-of-material': { readonly isMix: boolean; readonly materialPart: Part };
  'laid.own-estimate': NoParams;
  'laid.sum-of-inputs': NoParams;
  'laid.as-the-whole': NoParams;
  'laid.counted-as': NoParams;
}
