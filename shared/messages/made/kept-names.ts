// Made from ../en/person.json by `npm run messages`; change that instead.
/** Names as rows keep them: in English, whatever is read. */
export const keptNames = {
  "person.here": "This machine",
  "person.api-token": "API token",
  "person.hub": "Home automation hub",
} as const;
