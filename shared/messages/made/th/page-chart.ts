// Made from ../../th/page-chart.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageChartParams } from '../params/page-chart.ts';

export const pageChartTexts: PageTexts<PageChartParams> = {
  "page-chart.nothing": "ไม่มีค่าในช่วงเวลานี้",
  "page-chart.heat": "ความร้อน",
  "page-chart.heat.says": ["อุณหภูมิเป็น ",["unitText"]," ตามเวลา ",["linesText"],["hasAhead",{"true":[" ข้างหน้า: ",["aheadText"]],"other":""},0]],
  "page-chart.over-time": [["titleText"],"ตามเวลา ",["linesText"]],
  "page-chart.line": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0],["isByHand",{"true":" ที่คนวัด","other":""},0]," จาก ",["lowestText"]," ถึง ",["highestText"]," สูงสุดเมื่อ ",["timeText"]," ล่าสุด ",["lastText"]],
  "page-chart.next-sentence": [["beforeText"]," ",["nextText"]],
  "page-chart.act": ["เกลี่ยหรือกลับกองที่ ",["actC"]],
  "page-chart.by-hand": "○ ค่าที่คนวัด แต่ละค่าแยกกัน",
  "page-chart.expected": ["ที่คาดไว้: ใจกลางกองในแปดจากสิบกรณี ",["originText"]],
  "page-chart.ahead": "ข้างหน้า: ใจกลางกองใน 24 ชั่วโมงข้างหน้าในแปดจากสิบกรณี ถ้าไม่มีใครแตะต้องกอง ขีดสั้นบนแต่ละเส้นคือค่ากลาง",
  "page-chart.fan": ["ในอีก ",["firstHours"]," ใจกลางกองน่าจะอยู่ที่ ",["firstC"]," มากที่สุด (",["firstLowText"]," ถึง ",["firstHighText"]," ในแปดจากสิบกรณี)",["laterText"]," ถ้าไม่มีใครแตะต้องกอง"],
  "page-chart.fan.later": [["beforeText"],", ในอีก ",["laterHours"]," ที่ ",["laterC"]," (",["lowText"]," ถึง ",["highText"],")"],
  "page-chart.readout": "ชี้ที่กราฟเพื่ออ่านค่า",
  "page-chart.readout.none": "ไม่มีค่า",
  "page-chart.readout.value": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0]," ",["valueText"]],
  "page-chart.readout.expected": ["ที่คาดไว้ ",["lowText"]," ถึง ",["highC"]],
  "page-chart.readout.ahead": ["ข้างหน้า ",["lowText"]," ถึง ",["highC"]," น่าจะเป็น ",["middleC"]," มากที่สุด"],
  "page-chart.table": "ค่าเป็นตาราง",
  "page-chart.table.says": ["ใหม่ที่สุดก่อน แต่ละแถวรวม ",["minutesCount"]," นาที: ค่าเฉลี่ย และค่าต่ำสุดถึงสูงสุดเมื่อต่างกัน"],
  "page-chart.table.time": "เวลา",
  "page-chart.table.column": [["position",{"core":"ใจกลางกอง","top":"ด้านบน","base":"ก้นกอง","edge":"ขอบกอง","air":"อากาศ","other":""},0],", ",["quantityText"]],
  "page-chart.table.expected": ["ใจกลางกองที่คาดไว้, ",["unitText"]],
  "page-chart.table.cell": [["meanText"]," (",["lowText"]," ถึง ",["highText"],")"],
  "page-chart.table.range": [["lowText"]," ถึง ",["highText"]],
  "page-chart.ahead-table": "วันข้างหน้าเป็นตาราง",
  "page-chart.ahead-table.says": "ใจกลางกองทีละชั่วโมงข้างหน้า ถ้าไม่มีใครแตะต้องกอง ในแปดจากสิบกรณีจะอยู่ระหว่างสองค่านี้",
  "page-chart.ahead-table.likely": ["น่าจะเป็นมากที่สุด, ",["unitText"]],
  "page-chart.ahead-table.between": ["ระหว่าง, ",["unitText"]],
};
