// Made from ../../th/person.json by `npm run messages`; change that instead.
export const personTexts = {
  "person.here": "เครื่องนี้",
  "person.api-token": "โทเค็น API",
};
