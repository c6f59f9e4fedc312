// Made from ../../en/person.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PersonParams {
  'person.here': NoParams;
  'person.api-token': NoParams;
  'person.hub': NoParams;
}
