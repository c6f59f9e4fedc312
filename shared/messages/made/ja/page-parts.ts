// Made from ../../ja/page-parts.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PagePartsParams } from '../params/page-parts.ts';

export const pagePartsTexts: PageTexts<PagePartsParams> = {
  "page-parts.pager.back": "戻る",
  "page-parts.pager.next": "次へ",
  "page-parts.pager.shown": [["allCount"],"件のうち",["fromCount"],"～",["toCount"]],
  "page-parts.copy": "コピー",
  "page-parts.copied": "コピーしました",
  "page-parts.no": "いいえ",
};
