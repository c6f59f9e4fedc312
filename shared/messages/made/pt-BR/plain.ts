// Made from ../../pt-BR/plain.json by `npm run messages`; change that instead.
export const plainTexts = {
  "plain.nothing-to-do": "Nada.",
};
