// Made from ../../es/page-parts.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PagePartsParams } from '../params/page-parts.ts';

export const pagePartsTexts: PageTexts<PagePartsParams> = {
  "page-parts.pager.back": "Atrás",
  "page-parts.pager.next": "Siguiente",
  "page-parts.pager.shown": [["fromCount"]," a ",["toCount"]," de ",["allCount"]],
  "page-parts.copy": "Copiar",
  "page-parts.copied": "Copiado",
  "page-parts.no": "No",
};
