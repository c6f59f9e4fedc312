// Made from ../../th/password.json by `npm run messages`; change that instead.
export const passwordTexts = {
  "password.too-short": "รหัสผ่านต้องมีอย่างน้อย {leastCount, plural, other {#}} ตัวอักษร ใช้คำสี่คำเรียงกันก็ดี",
  "password.too-long": "รหัสผ่านต้องมีไม่เกิน {mostCount, plural, other {#}} ตัวอักษร",
  "password.few-characters": "รหัสผ่านซ้ำตัวอักษรเดิมไม่กี่ตัว: ใช้ตัวอักษรที่ต่างกันมากขึ้น",
  "password.repeats": "รหัสผ่านซ้ำกันเอง: เลือกรหัสที่ไม่ซ้ำ",
  "password.guessable": "รหัสผ่านเดาง่ายเกินไป: ทำจากคำทั่วไป ชื่อ หรือแป้นที่เรียงกัน ให้เพิ่มคำของคุณเอง",
};
