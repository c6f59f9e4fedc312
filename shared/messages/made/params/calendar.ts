// Made from ../../en/calendar.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface CalendarParams {
  'calendar.turn': { readonly pileName: string };
  'calendar.check': { readonly pileName: string };
  'calendar.ready': { readonly pileName: string };
  'calendar.called-off': { readonly pileName: string };
  'calendar.called-off.growth': { readonly pileName: string };
  'calendar.yours': NoParams;
  'calendar.yours-here': NoParams;
}
