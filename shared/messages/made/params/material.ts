// Made from ../../en/material.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface MaterialParams {
  'material.wheat-bran': NoParams;
  'material.rice-bran': NoParams;
  'material.soil': NoParams;
  'material.compost': NoParams;
  'material.soil-mix': NoParams;
  'material.compost-mix': NoParams;
  'material.other': NoParams;
  'material.unnamed': NoParams;
}
