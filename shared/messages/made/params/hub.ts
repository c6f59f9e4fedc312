// Made from ../../en/hub.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface HubParams {
  'hub.temperature': { readonly position: 'air' | 'base' | 'core' | 'edge' | 'other' | 'top' };
  'hub.moisture': NoParams;
  'hub.condition': NoParams;
  'hub.next': NoParams;
  'hub.warning': NoParams;
  'hub.last-heard': NoParams;
  'hub.acknowledge': NoParams;
}
