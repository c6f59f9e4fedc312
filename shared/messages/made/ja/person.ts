// Made from ../../ja/person.json by `npm run messages`; change that instead.
export const personTexts = {
  "person.here": "この機械",
  "person.api-token": "APIトークン",
};
