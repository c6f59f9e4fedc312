// Made from ../../th/phase.json by `npm run messages`; change that instead.
export const phaseTexts = {
  "phase.counts-as": "นับเป็นช่วง{phase, select, resting {พักตัว} warming {กำลังอุ่นขึ้น} active {หมักเต็มที่} cooling {กำลังเย็นลง} settled {นิ่งแล้ว} other {ที่ยังไม่ทราบ}}: {reasonPart}",
  "phase.reason.just-laid": "เพิ่งตั้งกอง และยังไม่เห็นใจกลางกองอุ่นขึ้น",
  "phase.reason.heat-began": "ใจกลางกองเริ่มอุ่นขึ้นเหนืออากาศ",
  "phase.reason.heat-faded": "ความอุ่นช่วงแรกจางไปก่อนจะหมัก",
  "phase.reason.reached-working-heat": "ใจกลางกองถึงความร้อนที่ใช้หมัก",
  "phase.reason.fell-from-its-peak": "ใจกลางกองลดลงต่ำกว่าจุดสูงสุดชัดเจนและยังลดอยู่",
  "phase.reason.reheated": "ใจกลางกองอุ่นขึ้นอีก",
  "phase.reason.back-near-air": "ใจกลางกองกลับมาห่างจากอากาศไม่เกิน {nearK} และอยู่อย่างนั้น",
  "phase.lost-culture-signs": "เส้นใยขาวใหม่และกลิ่นหวานหรือกลิ่นดินเป็นสัญญาณดี ไม่มีกลิ่นหรือมีกลิ่นไหม้ รอยสีเทาแห้งเหมือนขี้เถ้า กลิ่นแอมโมเนียหรือกลิ่นเน่าเป็นสัญญาณไม่ดี",
  "phase.past-heat.unjudged": "{position, select, core {ใจกลางกอง} top {ด้านบนของกอง} base {ก้นกอง} edge {ขอบกอง} other {กอง}}อยู่ที่ {lossC} ขึ้นไปนาน {lossH} สูงสุด {peakC} จุลินทรีย์อาจตายแล้ว และหลังจากนั้นยังไม่มีใครดมหรือดู",
  "phase.past-heat.judged": "{position, select, core {ใจกลางกอง} top {ด้านบนของกอง} base {ก้นกอง} edge {ขอบกอง} other {กอง}}อยู่ที่ {lossC} ขึ้นไปนาน {lossH} สูงสุด {peakC} หลังจากนั้นมีคนดมหรือดูแล้ว",
  "phase.past-heat.brief": "{position, select, core {ใจกลางกอง} top {ด้านบนของกอง} base {ก้นกอง} edge {ขอบกอง} other {กอง}}ขึ้นไปถึง {peakC} และอยู่ที่ {lossC} ขึ้นไปนาน {lossH}",
  "phase.past-heat.hot": "{position, select, core {ใจกลางกอง} top {ด้านบนของกอง} base {ก้นกอง} edge {ขอบกอง} other {กอง}}อยู่ที่ {actC} ขึ้นไปนาน {actH} สูงสุด {peakC}",
};
