// Made from ../../th/page-first.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageFirstParams } from '../params/page-first.ts';

export const pageFirstTexts: PageTexts<PageFirstParams> = {
  "page-first.server": "เซิร์ฟเวอร์",
  "page-first.port": "พอร์ต",
  "page-first.tls": "TLS",
  "page-first.tls.on": [["isTls",{"true":"เปิด","other":"ปิด"},0]],
  "page-first.only-here": ["โบรกเกอร์ตอบเฉพาะเครื่องนี้: ไม่มีอะไรจากอุปกรณ์อื่นไปถึง ",["<","link","ให้หัววัดและโทรศัพท์เข้ามา"]],
  "page-first.key.do": "สร้างกุญแจให้",
  "page-first.key.why": "อุปกรณ์ที่อยู่ที่อื่นต้องใช้กุญแจ: ชื่อผู้ใช้และรหัสผ่าน",
  "page-first.key.ask": "อุปกรณ์ที่อยู่ที่อื่นต้องใช้กุญแจ: ขอจากเจ้าของ",
  "page-first.waiting": "กำลังรอข้อความแรก ยังไม่มีอะไรมาถึงโบรกเกอร์",
  "page-first.came": ["ข้อความแรกมาเมื่อ ",["cameAtMs"]," ที่ ",["<","mono",[["topicText"]]]],
  "page-first.unread": ["มีข้อความที่ ",["<","mono",[["topicText"]]]," ที่ใช้ไม่ได้ (",["lastAgoMs"],") ",["whyText"]],
  "page-first.unused": ["มีข้อความมาที่ ",["<","mono",[["topicText"]]]," ซึ่ง Branhearth ไม่รู้จักเอง ",["<","link","บอกว่าค่าใดคือค่าที่วัด"]],
  "page-first.turned-away": [["<","b",[["whatText"]]]," จาก ",["addressText"]," (",["lastAgoMs"],") ",["meaningText"]],
  "page-first.outside": "โบรกเกอร์ของคุณเองตัดสินว่าใครเข้ามาได้: มันรู้ว่าปฏิเสธอะไรไป",
};
