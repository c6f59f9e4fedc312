// Made from ../../en/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "Turn: {pileName}",
  "calendar.check": "Check: {pileName}",
  "calendar.ready": "Likely ready: {pileName}",
  "calendar.called-off": "Not now, it heats dangerously: {pileName}",
  "calendar.called-off.growth": "Not now, wrong growth in it: {pileName}",
  "calendar.yours": "The address is yours: whoever has it can read the dates, until you renew it.",
  "calendar.yours-here": "The address is yours, and opens on this machine only: set BRANHEARTH_PUBLIC_URL to the one that phones reach. Whoever has it can read the dates, until you renew it.",
};
