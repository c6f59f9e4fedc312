// Made from ../../th/plain.json by `npm run messages`; change that instead.
export const plainTexts = {
  "plain.nothing-to-do": "ไม่ต้องทำอะไร",
};
