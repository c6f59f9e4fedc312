// Made by `npm run messages`.
import { cautionTexts } from './en/caution.ts';
import { phaseTexts } from './en/phase.ts';
import { plainTexts } from './en/plain.ts';

/** Every text of this language, by code: for servers and tests. Pages take the topics that they show. */
export const enTexts = {
  ...cautionTexts,
  ...phaseTexts,
  ...plainTexts,
};
