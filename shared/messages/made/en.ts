// Made by `npm run messages`.
import { plainTexts } from './en/plain.ts';

/** Every text of this language, by code: for servers and tests. Pages take the topics that they show. */
export const enTexts = {
  ...plainTexts,
};
