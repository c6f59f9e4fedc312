// Made from ../../en/calendar.json by `npm run messages`; change that instead.
export interface CalendarParams {
  'calendar.turn': { readonly pileName: string };
  'calendar.check': { readonly pileName: string };
  'calendar.ready': { readonly pileName: string };
  'calendar.called-off': { readonly pileName: string };
}
