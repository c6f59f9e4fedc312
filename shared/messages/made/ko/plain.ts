// Made from ../../ko/plain.json by `npm run messages`; change that instead.
export const plainTexts = {
  "plain.nothing-to-do": "없음.",
};
