// Made from ../../en/page-language.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageLanguageParams {
  'page-language.label': NoParams;
  'page-language.as-browser': NoParams;
  'page-language.hint': { readonly fallbackName: string };
  'page-language.machine-made': NoParams;
}
