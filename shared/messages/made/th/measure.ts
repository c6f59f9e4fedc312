// Made from ../../th/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "ยังไม่มีใครวัดใจกลางกอง: วัดด้วยเทอร์โมมิเตอร์ก้านยาว",
  "measure.probe-lost": "หัววัดใจกลางกองบอกไม่ได้ว่าเป็นอย่างไร: วัดใจกลางกองด้วยเทอร์โมมิเตอร์ก้านยาว",
  "measure.due": "วัดใจกลางกองอีกครั้งภายใน {dueAtMs}",
  "measure.overdue": "วัดใจกลางกองเดี๋ยวนี้ ครบกำหนดไปแล้วเมื่อ {dueAtMs}",
  "measure.quiet": "{duePart}: ขณะที่ยังนิ่งอยู่ วันละสองครั้งก็พอ",
  "measure.not-known-yet": "{duePart}: การวัดครั้งเดียวไม่แสดงว่าอุ่นขึ้นเร็วแค่ไหน",
  "measure.near-limit": "{duePart}: ใกล้ {actC} ซึ่งเป็นขีดที่ต้องลงมือ",
  "measure.climbing": "{duePart}: กำลังอุ่นขึ้นไปหา {actC} ซึ่งเป็นขีดที่ต้องลงมือ",
  "measure.over-limit": "{duePart}: เกิน {actC} ซึ่งเป็นขีดที่ต้องลงมือแล้ว",
};
