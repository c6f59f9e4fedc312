// Made from ../../es/page-language.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLanguageParams } from '../params/page-language.ts';

export const pageLanguageTexts: PageTexts<PageLanguageParams> = {
  "page-language.label": "Idioma",
  "page-language.as-browser": "El que pide el navegador",
  "page-language.hint": ["Se guarda con tu cuenta; los mensajes también llegan en él. Lo que no está traducido está en ",["fallbackName"],"."],
  "page-language.machine-made": "Traducido por máquina; todavía no lo ha leído nadie que cultive.",
};
