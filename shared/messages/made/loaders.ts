// Made by `npm run messages`.
import type { WholeLanguage } from '../page-text.ts';

/** Languages besides English, for pages: whoever reads none of them loads none. */
export const loaders: Readonly<Record<string, () => Promise<WholeLanguage>>> = {
  es: () => import('./es-whole.ts'),
  'pt-BR': () => import('./pt-BR-whole.ts'),
};
