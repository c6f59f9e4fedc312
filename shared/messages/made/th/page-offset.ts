// Made from ../../th/page-offset.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOffsetParams } from '../params/page-offset.ts';

export const pageOffsetTexts: PageTexts<PageOffsetParams> = {
  "page-offset.says": [["positionName"]," ",["measuredAtMs"],": เทอร์โมมิเตอร์ในมือ ",["handC"]," หัววัด ",["probeC"]," ถ้าเทอร์โมมิเตอร์ของคุณถูกต้อง หัววัดแสดง",["isLow",{"true":["น้อยไป ",["byK"]],"other":["มากไป ",["byK"]]},0]],
  "page-offset.from-now": "ค่าที่หัววัดบอกตั้งแต่ตอนนี้จะปรับให้ถูกตามนั้น ค่าก่อนหน้านี้ยังคงเดิม",
  "page-offset.take": "ใช้เป็นค่าชดเชยของหัววัด",
};
