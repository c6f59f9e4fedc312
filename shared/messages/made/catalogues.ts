// Made by `npm run messages`.
import { enTexts } from './en.ts';
import { esTexts } from './es.ts';
import { ptBRTexts } from './pt-BR.ts';

/** Every text of every language: for servers and tests. */
export const catalogues = {
  en: enTexts,
  es: esTexts,
  'pt-BR': ptBRTexts,
};
