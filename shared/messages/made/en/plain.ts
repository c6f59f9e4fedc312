// Made from ../../en/plain.json by `npm run messages`; change that instead.
export const plainTexts = {
  "plain.nothing-to-do": "Nothing.",
};
