// Made from ../../en/plain.json by `npm run messages`; change that instead.
import type { NoParams } from '../../message.ts';

export interface PlainParams {
  'plain.nothing-to-do': NoParams;
}
