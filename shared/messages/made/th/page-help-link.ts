// Made from ../../th/page-help-link.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageHelpLinkParams } from '../params/page-help-link.ts';

export const pageHelpLinkTexts: PageTexts<PageHelpLinkParams> = {
  "page-help-link.to": ["ความช่วยเหลือ: ",["chapterText"]],
  "page-help-link.all": "ทุกบท",
  "page-help-link.key": "สี จุด และเครื่องหมายหมายถึงอะไร",
  "page-help-link.chapter.first-steps": "ก้าวแรก",
  "page-help-link.chapter.probes": "เทอร์โมมิเตอร์และหัววัด",
  "page-help-link.chapter.probe": "สร้างหัววัดเอง",
  "page-help-link.chapter.squeeze": "บีบ ดม และดู",
  "page-help-link.chapter.signs": "สี จุด และเครื่องหมาย",
  "page-help-link.chapter.stages": "ขั้นต่าง ๆ และคำศัพท์",
  "page-help-link.chapter.warnings": "คำเตือนทีละเรื่อง",
  "page-help-link.chapter.notifications": "สัญญาณเตือนและการแจ้งเตือน",
  "page-help-link.chapter.chart": "การอ่านกราฟ",
  "page-help-link.chapter.device": "การดูแลหัววัด",
  "page-help-link.chapter.cautions": "ข้อควรระวัง",
  "page-help-link.chapter.questions": "คำถามและข้อขัดข้อง",
};
