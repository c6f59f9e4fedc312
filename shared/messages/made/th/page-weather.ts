// Made from ../../th/page-weather.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWeatherParams } from '../params/page-weather.ts';

export const pageWeatherTexts: PageTexts<PageWeatherParams> = {
  "page-weather.title": "อากาศของวันพรุ่งนี้",
  "page-weather.lead": "กองบางแปรตามอากาศ ถ้ารู้อากาศของวันพรุ่งนี้จะพยากรณ์ได้ใกล้ขึ้นมาก ถ้าไม่รู้ จะถือว่าวันพรุ่งนี้เหมือนวันนี้",
  "page-weather.what": ["Branhearth ถามบริการฟรีของ ",["sourceText"]," ได้ ไม่เกินชั่วโมงละครั้ง ไม่ถามที่ใดเว้นแต่คุณตั้งไว้ที่นี่ แล้วตำแหน่งที่ปัดให้หยาบราวหนึ่งกิโลเมตร และข้อมูลติดต่อข้างล่างจะไปที่นั่น ดู",["<","terms","ข้อกำหนดการใช้"]," ข้อมูลของบริการอยู่ภายใต้ ",["<","licence","CC BY 4.0"]],
  "page-weather.contact": "ข้อมูลติดต่อ",
  "page-weather.contact.hint": "ที่อยู่อีเมลหรือหน้าเว็บของคุณ: บริการนี้ต้องการรู้ว่าจะเขียนถึงใคร",
  "page-weather.latitude": ["ละติจูดของ ",["siteName"]],
  "page-weather.longitude": ["ลองจิจูดของ ",["siteName"]],
  "page-weather.degrees.hint": "เป็นองศา เช่น 47.38 เว้นว่างทั้งสองช่องแล้วจะไม่ถามใครสำหรับสถานที่นี้",
  "page-weather.save": "เก็บ",
  "page-weather.saved": "เก็บแล้ว",
  "page-weather.not-a-number": "ต้องเป็นจำนวนองศา",
  "page-weather.heard": [["siteName"],": คำตอบล่าสุด ",["heardAtMs"]],
  "page-weather.waiting": [["siteName"],": ยังไม่มีคำตอบ"],
  "page-weather.problem": [["siteName"],": คำขอครั้งล่าสุดไม่ได้ผล: ",["problemText"]," ระบบจะขอใหม่เอง"],
  "page-weather.own": ["โปรแกรมของคุณเองบอกอากาศที่จะมาได้ทาง ",["<","mono","POST /api/sites/…/air-ahead"]," หรือแบบเก็บค้างที่ ",["<","mono","…/air-ahead"]],
};
