// Made from ../../en/origin.json by `npm run messages`; change that instead.
import type { NoParams, Temperature } from '../../param-types.ts';

export interface OriginParams {
  'origin.practice': NoParams;
  'origin.practice-days-differ': NoParams;
  'origin.set-for-batch': NoParams;
  'origin.this-batch': NoParams;
  'origin.length-warm': { readonly splitC: Temperature };
  'origin.length-cool': { readonly splitC: Temperature };
  'origin.assumption': NoParams;
  'origin.assumption-plants': NoParams;
  'origin.memory': NoParams;
  'origin.quartz': NoParams;
  'origin.wheat-bran-bulk': NoParams;
  'origin.wheat-bran-moisture': NoParams;
  'origin.wheat-bran-usual': NoParams;
  'origin.wheat-bran-nitrogen': NoParams;
  'origin.rice-bran-bulk': NoParams;
  'origin.rice-bran-moisture': NoParams;
  'origin.rice-bran-target': NoParams;
  'origin.rice-bran-nitrogen': NoParams;
  'origin.soil-bulk': NoParams;
  'origin.soil-moisture': NoParams;
  'origin.soil-target': NoParams;
  'origin.compost-bulk': NoParams;
  'origin.compost-moisture': NoParams;
  'origin.compost-target': NoParams;
  'origin.composting-moisture': NoParams;
  'origin.air-floor': NoParams;
  'origin.first-share': NoParams;
  'origin.starter-weight': NoParams;
}
