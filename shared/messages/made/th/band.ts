// Made from ../../th/band.json by `npm run messages`; change that instead.
export const bandTexts = {
  "band.not-computed": "ยังไม่ได้คำนวณ",
  "band.model": "คำนวณจากวัสดุ ความหนา และวัสดุคลุมของรุ่นนี้ {isAirMeasured, select, true {กับอากาศที่วัดได้} other {กับวันที่อุ่นราวกับตอนที่ใจกลางกองเริ่ม (เพราะไม่มีการวัดอากาศ)}}{actCount, plural, =0 {} other { และสิ่งที่จดว่าทำ # ครั้ง}}",
  "band.foretold": "คำนวณจากวัสดุ ความหนา และวัสดุคลุมของรุ่นนี้ {isAirMeasured, select, true {กับอากาศที่วัดได้และอากาศที่พยากรณ์หลังจากนั้น} other {กับอากาศที่พยากรณ์ (เพราะไม่มีการวัดอากาศ)}}{actCount, plural, =0 {} other { และสิ่งที่จดว่าทำ # ครั้ง}}",
  "band.own": "จากรุ่นที่เสร็จแล้วของคุณเอง {batchCount, plural, other {#}} รุ่น ไม่ว่าอากาศเป็นอย่างไร",
  "band.both": "{modelPart} และจากรุ่นที่เสร็จแล้วของคุณเอง {batchCount, plural, other {#}} รุ่น",
};
