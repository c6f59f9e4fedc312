// Made from ../../th/page-outbox.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOutboxParams } from '../params/page-outbox.ts';

export const pageOutboxTexts: PageTexts<PageOutboxParams> = {
  "page-outbox.own": [["entryCount",{"other":[["#"]]},1]," รายการรออยู่บนอุปกรณ์นี้ ",["<","send","ส่งเดี๋ยวนี้"]],
  "page-outbox.of": [["entryCount",{"other":[["#"]]},1]," รายการของ ",["personName"]," รออยู่บนอุปกรณ์นี้จนกว่า ",["personName"]," จะเข้าสู่ระบบที่นี่"],
  "page-outbox.nobodys": [["entryCount",{"other":[["#"]]},1]," รายการที่เขียนที่นี่ขณะที่ไม่มีใครเข้าสู่ระบบ รอให้มีคนบอกว่าเป็นของใคร"],
  "page-outbox.see": [["entryCount",{"other":"ดูรายการ"},1]],
  "page-outbox.refused": ["ไม่รับ ",["entryCount",{"other":[["#"]]},1]," รายการ"],
};
