// Made from ../../th/page-mound.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageMoundParams } from '../params/page-mound.ts';

export const pageMoundTexts: PageTexts<PageMoundParams> = {
  "page-mound.place": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0]],
  "page-mound.label": [["stand",{"silent":"เงียบ","notMeasured":"ไม่มีการวัด","other":"ไม่มีหัววัดความร้อน"},0]],
  "page-mound.label.doubted": [["tempText"],"?"],
  "page-mound.doubted": [["tempText"]," น่าสงสัย: กระโดดจาก ",["fromText"]],
  "page-mound.section": ["ภาพตัดของกอง: ",["placesText"]],
  "page-mound.section.none": "ภาพตัดของกอง: ยังไม่ได้กำหนดหัววัด",
  "page-mound.section.next": [["beforeText"],"; ",["nextText"]],
  "page-mound.section.measured": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0]," ",["isHot",{"true":[["heatText"]],"other":"ไม่มีการวัดอุณหภูมิ"},0],["isDamp",{"true":[", ",["dampText"]],"other":""},0]],
  "page-mound.section.by-hand": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0]," คนวัดครั้งสุดท้าย ",["ageText"],["wasHot",{"true":[" ได้ ",["wasText"]],"other":""},0]],
  "page-mound.section.silent": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0]," เงียบ",["hasSince",{"true":["มา ",["sinceText"]],"other":""},0],["wasHot",{"true":[" ค่าสุดท้าย ",["wasText"]],"other":""},0]],
  "page-mound.damp": ["จุดแสดงความชื้นตามสมดุลน้ำ: ราว ",["aboutCount"]," % ของมวลเปียก น่าจะอยู่ระหว่าง ",["lowCount"]," ถึง ",["highCount"]," %"],
  "page-mound.empty": "หัววัดอยู่ที่ไหนในกอง: ด้านบน ใจกลางกอง ขอบกอง ก้นกอง และอากาศข้างกอง",
  "page-mound.key": "สีของภาพวาด จากเย็นไปร้อน",
  "page-mound.key.says": "วิธีอ่านภาพกอง: สีคือความร้อน และพื้นกระดาษเปล่าคือความร้อนที่ไม่มีหัววัดวัด จุดคือความชื้น ยิ่งมากยิ่งชื้น ถ้าไม่มีจุดคือไม่ทราบความชื้น เส้นรอบเส้นขาดคือหัววัดที่เงียบไป หรือที่ตัวเลขกระโดดและยังเชื่อไม่ได้: มีเครื่องหมายคำถาม",
};
