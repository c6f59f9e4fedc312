// Made from ../../th/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.batch-name": "{stage, select, bran {รำ} soil {ดิน} other {รุ่น}} {laidDayMs}, {pileName}",
  "lineage.batch": "{stage, select, bran {รำ} soil {ดิน} other {รุ่น}} ตั้งเมื่อ {laidDayMs} บน {pileName}{ending, select, finished {, เสร็จแล้ว} continued {, ย้ายไปขั้นถัดไป} split {, แบ่งกอง} merged {, รวมกับรุ่นอื่น} used {, ใช้หมดแล้ว} abandoned {, ล้มเลิก} other {}}",
  "lineage.use": "{target, select, bed {หว่านบนแปลงปลูก} compost {ใส่ในปุ๋ยหมัก} potting {ผสมในดินปลูก} store {เก็บไว้} given {ให้คนอื่น} other {นำไปใช้}} {usedDayMs}{isWeighed, select, true {, {usedKg}} other {}}",
  "lineage.starter": "หัวเชื้อ{isPlaceKnown, select, true {ที่เก็บจาก {placeName}} other {}}{isDayKnown, select, true { {collectedDayMs}} other {}}",
  "lineage.material": "{materialPart}{isSupplierKnown, select, true {จาก {supplierName}} other {}}{isNumbered, select, true { ล็อต {numberName}} other {}}{organic, select, certified {, อินทรีย์: รับรองแล้ว} conversion {, อินทรีย์: ระยะปรับเปลี่ยน} not {, อินทรีย์: ไม่ได้รับรอง} other {}}",
  "lineage.water": "น้ำ",
  "lineage.sugar": "น้ำตาล",
  "lineage.remark.more-out-than-in": "จดว่าเอาออกไป {outKg} แต่จดว่า{isLaid, select, true {ตั้งกองไว้} other {ใส่ไว้}} {thereKg}: อาจเพราะเติมน้ำหลังจากนั้น หรือจดผิด",
};
