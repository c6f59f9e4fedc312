// Made from ../../th/page-best.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageBestParams } from '../params/page-best.ts';

export const pageBestTexts: PageTexts<PageBestParams> = {
  "page-best.title": "รุ่นใดดีที่สุด",
  "page-best.title.year": ["ใน ",["yearText"]," รุ่นใดดีที่สุด"],
  "page-best.stage": [["stage",{"bran":"ขั้นรำ","soil":"ขั้นดิน","other":""},0]],
  "page-best.best": [["<","link",[["batchName"]]],["isYear",{"true":[" ดีที่สุดของ ",["yearText"]],"other":" ดีที่สุด"},0],": ",["judgedText"]],
  "page-best.alike": ["อีก ",["alikeCount"]," รุ่นตัดสินว่า",["verdict",{"good":"ดี","usable":"พอใช้ได้","poor":"ไม่ค่อยดี","lost":"เสียแล้ว","other":""},0],["isMeasured",{"true":[" รุ่นนี้มาก่อนตามที่วัดได้: มีคำเตือนค้างอยู่ ",["alarmHours"]," และใจกลางกองอยู่ในช่วงอุณหภูมิพอดี ",["comfortFrac"]," ของเวลา"],"other":""},0]],
  "page-best.different": "อะไรที่ต่างไป",
  "page-best.groups": [["likeCount"]," รุ่นที่ตัดสินว่า",["verdict",{"good":"ดี","usable":"พอใช้ได้","poor":"ไม่ค่อยดี","lost":"เสียแล้ว","other":""},0]," เทียบกับ ",["lowerCount"]," รุ่นที่ตัดสินว่า",["lower",{"good":"ดี","usable":"พอใช้ได้","poor":"ไม่ค่อยดี","lost":"เสียแล้ว","other":""},0],["isYear",{"true":" จากทุกปีที่แสดงที่นี่","other":""},0],":"],
  "page-best.like": [["verdict",{"good":"รุ่นที่ดี","usable":"รุ่นที่พอใช้ได้","poor":"รุ่นที่ไม่ค่อยดี","lost":"รุ่นที่เสียแล้ว","other":""},0]],
  "page-best.own": [["batchName"],": ",["figureText"]],
  "page-best.none-lower": ["ไม่มีรุ่นใดถูกตัดสินต่ำกว่า จึงไม่มีอะไรมาเทียบกับ",["likeText"]],
  "page-best.rest": "ค่าอื่น ๆ",
  "page-best.nobody": ["ยังไม่มีใครตัดสิน ",["batchCount"]," รุ่นนี้ จึงยังบอกไม่ได้ว่ารุ่นใดดีที่สุด"],
  "page-best.unjudged": ["ยังไม่มีใครตัดสินอีก ",["batchCount"]," รุ่น ซึ่งไม่นับทั้งว่าดีและไม่ดี"],
  "page-best.order": "ผลตัดสินของคนมาก่อน ถ้าผลเท่ากัน รุ่นที่มีคำเตือนค้างน้อยชั่วโมงกว่ามาก่อน แล้วตามด้วยรุ่นที่อยู่ในช่วงอุณหภูมิพอดีนานกว่า เป็นลำดับของเราเอง",
  "page-best.alike.names": [["alikeCount",{"=1":"รุ่น","other":"รุ่น"},1],"อื่นที่ตัดสินว่า",["verdict",{"good":"ดี","usable":"พอใช้ได้","poor":"ไม่ค่อยดี","lost":"เสียแล้ว","other":""},0]],
  "page-best.unjudged.names": "ไม่ได้ตัดสิน",
  "page-best.apart": [["apartCount",{"=0":"ไม่มีค่าใดต่างกันชัดเจน","=1":"มีหนึ่งค่าที่ต่างกันชัดเจน","other":["มี ",["#"]," ค่าที่ต่างกันชัดเจน"]},1]],
  "page-best.few": "น้อยเกินกว่าจะบอกได้",
  "page-best.whys": ["สิ่งที่คนบอกเกี่ยวกับกลุ่มหลัง: ",["whysText"]],
  "page-best.why": [["whyText"]," (",["saidCount"],")"],
  "page-best.why.own": "ในคำของตัวเอง",
};
