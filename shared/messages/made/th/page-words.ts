// Made from ../../th/page-words.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWordsParams } from '../params/page-words.ts';

export const pageWordsTexts: PageTexts<PageWordsParams> = {
  "page-words.length": [["unit",{"second":[["lengthCount"]," วินาที"],"minute":[["lengthCount"]," นาที"],"hour":[["lengthCount"]," ชั่วโมง"],"other":[["lengthCount"]," วัน"]},0]],
  "page-words.ago": [["lengthText"],"ที่ผ่านมา"],
  "page-words.just-now": "ขณะนี้",
  "page-words.due": [["due",{"now":"เดี๋ยวนี้","passed":["ครบกำหนดไปแล้ว ",["lengthText"]," เมื่อ ",["timeText"]],"other":["ภายใน ",["timeText"]," (ในอีก ",["lengthText"],")"]},0]],
  "page-words.day": ["วันที่ ",["dayNumber"]],
  "page-words.warning": [["warningText"],", ",["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","other":"อากาศ"},0]],
  "page-words.new-warning": ["คำเตือนใหม่ที่ ",["pileName"],": ",["warningText"]," ",["todoText"]],
  "page-words.state": [["state",{"normal":"ปกติ","unacknowledged":"ยังไม่มีใครรับทราบ","acknowledged":"รับทราบแล้ว","returned":"จบแล้ว ยังไม่มีใครรับทราบ","shelved":["พักการเตือน",["hasEnd",{"true":["จนถึง ",["untilText"]],"other":""},0]],"other":"หยุดใช้งาน"},0]],
  "page-words.silenced": [["warningText"],", ",["stateText"]],
  "page-words.no-answer": "Branhearth ไม่ตอบ โปรแกรมทำงานอยู่หรือไม่ และอุปกรณ์นี้อยู่ในเครือข่ายเดียวกันหรือไม่",
  "page-words.held-up": "คุณออกจากระบบบนอุปกรณ์นี้แล้ว และเซิร์ฟเวอร์ยังไม่รู้",
  "page-words.unreadable": ["คำตอบของ ",["pathText"]," ไม่ใช่แบบที่หน้านี้รู้จัก ให้โหลดหน้าใหม่"],
  "page-words.refused": "ถูกปฏิเสธ",
  "page-words.refused.says": ["เซิร์ฟเวอร์ปฏิเสธและไม่ให้เหตุผล (HTTP ",["statusText"],")"],
  "page-words.not-number": "ไม่ใช่ตัวเลข",
  "page-words.not-number.says": "ไม่ได้เก็บอะไร: ช่องที่ต้องเป็นตัวเลขมีอย่างอื่นอยู่",
  "page-words.not-number.field": ["นี่ไม่ใช่ตัวเลข ให้เขียนตัวเลข เช่น ",["exampleNumber"]],
};
