// Made from ../../ja/plain.json by `npm run messages`; change that instead.
export const plainTexts = {
  "plain.nothing-to-do": "何もありません。",
};
