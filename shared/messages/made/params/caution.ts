// Made from ../../en/caution.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

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
  'caution.doors': NoParams;
  'caution.practice': NoParams;
  'caution.self-heating': NoParams;
}
