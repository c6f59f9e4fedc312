// Made from ../../ko/person.json by `npm run messages`; change that instead.
export const personTexts = {
  "person.here": "이 서버",
  "person.api-token": "API 토큰",
};
