// Made from ../../en/person.json by `npm run messages`; change that instead.
export const personTexts = {
  "person.here": "This machine",
  "person.api-token": "API token",
  "person.hub": "Home automation hub",
};
