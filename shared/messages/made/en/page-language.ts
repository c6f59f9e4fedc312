// Made from ../../en/page-language.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLanguageParams } from '../params/page-language.ts';

export const pageLanguageTexts: PageTexts<PageLanguageParams> = {
  "page-language.label": "Language",
  "page-language.as-browser": "As the browser asks for",
  "page-language.hint": ["Kept with your account; messages come in it too. What is not translated is in ",["fallbackName"],"."],
  "page-language.machine-made": "Translated by machine, not yet read by a grower.",
};
