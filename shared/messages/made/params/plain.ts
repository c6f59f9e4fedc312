// Made from ../../en/plain.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PlainParams {
  'plain.nothing-to-do': NoParams;
}
