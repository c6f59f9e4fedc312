// Made from ../../en/band.json by `npm run messages`; change that instead.
import type { NoParams, Part } from '../../param-types.ts';

export interface BandParams {
  'band.not-computed': NoParams;
  'band.model': { readonly actCount: number; readonly isAirMeasured: boolean };
  'band.foretold': { readonly actCount: number; readonly isAirMeasured: boolean };
  'band.own': { readonly batchCount: number };
  'band.both': { readonly batchCount: number; readonly modelPart: Part };
}
