// Made from ../../ko/page-parts.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PagePartsParams } from '../params/page-parts.ts';

export const pagePartsTexts: PageTexts<PagePartsParams> = {
  "page-parts.pager.back": "이전",
  "page-parts.pager.next": "다음",
  "page-parts.pager.shown": [["allCount"],"개 가운데 ",["fromCount"],"~",["toCount"]],
  "page-parts.copy": "복사",
  "page-parts.copied": "복사함",
  "page-parts.no": "아니요",
};
