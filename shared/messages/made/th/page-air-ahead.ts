// Made from ../../th/page-air-ahead.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageAirAheadParams } from '../params/page-air-ahead.ts';

export const pageAirAheadTexts: PageTexts<PageAirAheadParams> = {
  "page-air-ahead.used": ["คิดจากอากาศที่พยากรณ์สำหรับ ",["aheadMs"]," ข้างหน้า (",["sourceText"],") ทำไว้ ",["sinceMs"],"ก่อน"],
  "page-air-ahead.fresh": ["คิดจากอากาศที่พยากรณ์สำหรับ ",["aheadMs"]," ข้างหน้า (",["sourceText"],") เพิ่งทำ"],
  "page-air-ahead.licence": ["ข้อมูลจาก ",["sourceText"]," ภายใต้ ",["<","licence","CC BY 4.0"]," ที่ใดวัดอากาศข้างกอง จะปรับให้ถูกด้วยค่านั้น"],
};
