// Made from ../../en/page-units.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageUnitsParams {
  'page-units.says': { readonly length: 'ft' | 'm' | 'other'; readonly mass: 'kg' | 'lb' | 'other'; readonly temperatureText: string; readonly volume: 'L' | 'gal' | 'other' };
  'page-units.mass': NoParams;
  'page-units.volume': NoParams;
  'page-units.length': NoParams;
  'page-units.temperature': NoParams;
}
