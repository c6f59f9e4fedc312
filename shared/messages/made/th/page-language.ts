// Made from ../../th/page-language.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLanguageParams } from '../params/page-language.ts';

export const pageLanguageTexts: PageTexts<PageLanguageParams> = {
  "page-language.label": "ภาษา",
  "page-language.as-browser": "ตามที่เบราว์เซอร์ขอ",
  "page-language.hint": ["เก็บไว้กับบัญชีของคุณ ข้อความที่ส่งมาก็เป็นภาษานี้ สิ่งที่ยังไม่ได้แปลเป็น",["fallbackName"]],
  "page-language.machine-made": "แปลด้วยเครื่อง ยังไม่มีผู้ทำกองอ่านตรวจ",
};
