// Made from ../../en/caution.json by `npm run messages`; change that instead.
import type { NoParams, Temperature } from '../../param-types.ts';

export interface CautionParams {
  'caution.spores': NoParams;
  'caution.coloured-mould': NoParams;
  'caution.dry-bran': NoParams;
  'caution.smelling': NoParams;
  'caution.ammonia': NoParams;
  'caution.foul-air': NoParams;
  'caution.shed-air': NoParams;
  'caution.fire': NoParams;
  'caution.deep': NoParams;
  'caution.scald': NoParams;
  'caution.watering': NoParams;
  'caution.using': NoParams;
  'caution.unknown-heat': NoParams;
  'caution.who': NoParams;
  'caution.hands': NoParams;
  'caution.handful': NoParams;
  'caution.hot-handful': NoParams;
  'caution.handful-by-fork': { readonly hotC: Temperature };
  'caution.ladder.1': { readonly hottestC: Temperature };
  'caution.ladder.2': { readonly hottestC: Temperature };
  'caution.ladder.3': { readonly hottestC: Temperature };
  'caution.ladder.4': { readonly hottestC: Temperature };
  'caution.ladder.5': { readonly hottestC: Temperature };
  'caution.closed.1': { readonly hottestC: Temperature };
  'caution.closed.2': { readonly hottestC: Temperature };
  'caution.closed.3': { readonly hottestC: Temperature };
  'caution.closed.4': { readonly hottestC: Temperature };
  'caution.closed.5': { readonly hottestC: Temperature };
  'caution.doors': NoParams;
  'caution.practice': NoParams;
  'caution.self-heating': { readonly heatsC: Temperature; readonly keepAwayC: Temperature };
}
