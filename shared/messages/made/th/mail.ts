// Made from ../../th/mail.json by `npm run messages`; change that instead.
export const mailTexts = {
  "mail.foot": "เซ็นเซอร์อย่างเดียวไม่เคยบอกได้ว่ากองได้ที่หรือปลอดภัย ข้อความเหล่านี้ไม่ใช่ระบบป้องกันไฟ",
  "mail.seen-it": "ฉันเห็นแล้ว",
  "mail.seen-it-by-address": "ฉันเห็นแล้ว (เปิดหน้าที่มีปุ่มเดียว):",
  "mail.look": "ดูกอง",
  "mail.look-by-address": "ดูกอง:",
};
