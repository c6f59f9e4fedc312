// Made from ../../th/page-parts.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PagePartsParams } from '../params/page-parts.ts';

export const pagePartsTexts: PageTexts<PagePartsParams> = {
  "page-parts.pager.back": "ก่อนหน้า",
  "page-parts.pager.next": "ถัดไป",
  "page-parts.pager.shown": [["fromCount"]," ถึง ",["toCount"]," จาก ",["allCount"]],
  "page-parts.copy": "คัดลอก",
  "page-parts.copied": "คัดลอกแล้ว",
  "page-parts.no": "ไม่ใช่",
};
