// Made from ../../en/page-offset.json by `npm run messages`; change that instead.
import type { Difference, NoParams, Temperature } from '../../param-types.ts';

export interface PageOffsetParams {
  'page-offset.says': { readonly byK: Difference; readonly handC: Temperature; readonly isLow: boolean; readonly measuredAtMs: number; readonly positionName: string; readonly probeC: Temperature };
  'page-offset.from-now': NoParams;
  'page-offset.take': NoParams;
}
