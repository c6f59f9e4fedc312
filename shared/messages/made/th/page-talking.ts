// Made from ../../th/page-talking.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageTalkingParams } from '../params/page-talking.ts';

export const pageTalkingTexts: PageTexts<PageTalkingParams> = {
  "page-talking.line": [["<","name",[["probeName"]]]," ",["isRead",{"true":[["readText"]],"other":"ยังไม่มีค่า"},0],["isHeard",{"true":[["<","age",[", ",["heardAgoMs"]]]],"other":""},0]],
  "page-talking.rising": "กำลังขึ้น",
  "page-talking.warm": [["probeCount",{"=1":"กำหัววัดไว้ในมือให้อุ่นเพื่อความแน่ใจ: แล้วจะมีเครื่องหมายว่ากำลังขึ้น","other":"กำหัววัดตัวหนึ่งไว้ในมือให้อุ่นเพื่อหาว่าเป็นตัวใด: ตัวที่ขึ้นจะมีเครื่องหมาย"},1]],
  "page-talking.offer": [["probeCount",{"=1":"มีหัววัดหนึ่งตัวส่งค่า อยู่ในใจกลางกองหรือไม่","other":["มีหัววัด ",["#"]," ตัวส่งค่า ตัวใดอยู่ในใจกลางกอง"]},1]],
  "page-talking.in-core": ["อยู่ในใจกลางกอง",["<","aloud",[": ",["probeName"]]]],
  "page-talking.elsewhere": "อยู่ที่อื่นในกอง หรือตั้งแต่เวลาอื่น",
  "page-talking.none": "ยังไม่มีตัวใด",
};
