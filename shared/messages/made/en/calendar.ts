// Made from ../../en/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "Turn: {pileName}",
  "calendar.check": "Check: {pileName}",
  "calendar.ready": "Likely ready: {pileName}",
  "calendar.called-off": "Not now, it heats dangerously: {pileName}",
};
