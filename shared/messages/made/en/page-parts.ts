// Made from ../../en/page-parts.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PagePartsParams } from '../params/page-parts.ts';

export const pagePartsTexts: PageTexts<PagePartsParams> = {
  "page-parts.pager.back": "Back",
  "page-parts.pager.next": "Next",
  "page-parts.pager.shown": [["fromCount"]," to ",["toCount"]," of ",["allCount"]],
  "page-parts.copy": "Copy",
  "page-parts.copied": "Copied",
  "page-parts.no": "No",
};
