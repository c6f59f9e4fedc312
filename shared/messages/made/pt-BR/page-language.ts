// Made from ../../pt-BR/page-language.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLanguageParams } from '../params/page-language.ts';

export const pageLanguageTexts: PageTexts<PageLanguageParams> = {
  "page-language.label": "Idioma",
  "page-language.as-browser": "Como o navegador pede",
  "page-language.hint": ["Fica guardado com a sua conta; as mensagens também vêm nele. O que não está traduzido aparece em ",["fallbackName"],"."],
  "page-language.machine-made": "Traduzido por máquina, ainda não lido por alguém que cultiva.",
};
