// Made from ../../th/verdict.json by `npm run messages`; change that instead.
export const verdictTexts = {
  "verdict.why.smelt-good": "กลิ่นดี",
  "verdict.why.grew-white": "ขาวทั่วทั้งกอง",
  "verdict.why.kept-warm": "อุ่นขึ้นตามที่ควร",
  "verdict.why.too-hot": "ร้อนเกินไป",
  "verdict.why.too-cool": "ไม่เคยอุ่นพอ",
  "verdict.why.too-wet": "เปียกเกินไป",
  "verdict.why.too-dry": "แห้งเกินไป",
  "verdict.why.smelt-bad": "กลิ่นไม่ดี",
  "verdict.why.other-growth": "มีเชื้อที่ไม่ใช่สีขาวขึ้น",
  "verdict.why.pests": "มีสัตว์หรือแมลงรบกวน",
  "verdict.why.uneven": "หมักเพียงบางจุด",
  "verdict.seen.peak": "ใจกลางกองขึ้นถึง {peakC}",
  "verdict.seen.peak-low": "ใจกลางกองขึ้นอย่างมากถึง {peakC} ควรขึ้นถึง {comfortMinC}",
  "verdict.seen.comfort": "ใจกลางกองอยู่ระหว่าง {comfortMinC} ถึง {comfortMaxC} นาน {comfortH} จากที่วัดไว้ {measuredH}",
  "verdict.seen.warned": "มีคำเตือนบอกไว้นาน {stoodH}",
  "verdict.seen.noted": "จดไว้ว่า: {entryPart}",
};
