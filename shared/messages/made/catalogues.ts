// Made by `npm run messages`.
import { enTexts } from './en.ts';
import { esTexts } from './es.ts';
import { jaTexts } from './ja.ts';
import { koTexts } from './ko.ts';
import { ptBRTexts } from './pt-BR.ts';
import { thTexts } from './th.ts';

/** Every text of every language: for servers and tests. */
export const catalogues = {
  en: enTexts,
  es: esTexts,
  ja: jaTexts,
  ko: koTexts,
  'pt-BR': ptBRTexts,
  th: thTexts,
};
