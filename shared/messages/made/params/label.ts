// Made from ../../en/label.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface LabelParams {
  'label.opens': NoParams;
  'label.opens-here': NoParams;
}
