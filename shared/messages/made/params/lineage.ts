// Made from ../../en/lineage.json by `npm run messages`; change that instead.
import type { Amount } from '../../param-types.ts';

export interface LineageParams {
  'lineage.remark.more-out-than-in': { readonly isLaid: boolean; readonly outKg: Amount; readonly thereKg: Amount };
}
