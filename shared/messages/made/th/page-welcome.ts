// Made from ../../th/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "ยินดีต้อนรับ",
  "page-welcome.none": "ยังไม่มีกองที่เฝ้าดู",
  "page-welcome.none.hint": "ผู้ดูแลหรือเจ้าของเป็นผู้ตั้งกองแรก แล้วกองจะแสดงที่นี่",
  "page-welcome.practise-meanwhile": ["ระหว่างนี้ ",["<","link","ฝึกกับกองจำลอง"]," ได้"],
  "page-welcome.lay-first": "ยังไม่มีกองที่เฝ้าดู ตั้งกองแรก",
  "page-welcome.lead": "Branhearth ฟังหัววัดในกองรำและกองดินของคุณ บอกเป็นภาษาง่าย ๆ ว่าแต่ละกองเป็นอย่างไรและต้องทำอะไรต่อ และเก็บประวัติของแต่ละรุ่น",
  "page-welcome.demo": ["หยุดโปรแกรม แล้วสั่ง ",["<","command","npm run demo"]," ในโฟลเดอร์ของโปรแกรม หน้านี้จะแสดงฟาร์มสมมติที่มีสี่กอง ด้วยเวลาที่เร่งและบนโฟลเดอร์ชั่วคราว"],
  "page-welcome.publish": ["หัววัดส่งค่าผ่าน MQTT ไปที่ ",["<","topic",[["topicText"]]]," ถ้าจะลองโดยไม่มีหัววัด ให้สั่งคำสั่งนี้",["isOnlyHere",{"true":"บนเครื่องนี้ ถ้ามีเครื่องมือของ Mosquitto","other":"บนเครื่องใดก็ได้ที่มีเครื่องมือของ Mosquitto"},0],":"],
  "page-welcome.copy": "คัดลอก",
  "page-welcome.copied": "คัดลอกแล้ว",
  "page-welcome.broker": ["โบรกเกอร์",["stateText"],": ",["detailText"]],
  "page-welcome.have": "คุณมีอะไร",
  "page-welcome.have.thermometer": "เทอร์โมมิเตอร์",
  "page-welcome.have.sensor": "เซ็นเซอร์ที่ส่งค่าอยู่แล้ว",
  "page-welcome.have.parts": "ชิ้นส่วนสำหรับสร้างหัววัด",
  "page-welcome.have.nothing": "ยังไม่มีอะไร: แสดงให้ดู",
  "page-welcome.thermometer": "เสียบเข้ากลางกอง รอจนหยุดนิ่ง แล้วบอกว่าแสดงเท่าไร",
  "page-welcome.parts": [["<","link","วิธีสร้างหัววัด"],": ซื้ออะไร ต่อสายอย่างไร และการตั้งค่าที่พร้อมใส่ เมื่อหัววัดส่งค่า จะแสดงที่นี่"],
  "page-welcome.nothing": "กองจำลองในมือคุณ: ใช้เวลาไม่กี่นาทีและไม่ต้องมีหัววัด",
  "page-welcome.nothing.do": "ฝึกกับกองจำลอง",
  "page-welcome.sensor.where": "ส่งไปที่ไหน",
  "page-welcome.sensor.pile": "กอง",
};
