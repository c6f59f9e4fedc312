// Made by `npm run messages`.
import { enTexts } from './en.ts';

/** Every text of every language: for servers and tests. */
export const catalogues = {
  en: enTexts,
};
