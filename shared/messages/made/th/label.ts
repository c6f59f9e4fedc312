// Made from ../../th/label.json by `npm run messages`; change that instead.
export const labelTexts = {
  "label.opens": "รหัสนี้เปิดสมุดบันทึกของกองนี้",
  "label.opens-here": "รหัสนี้เปิดได้บนเครื่องนี้เท่านั้น ให้ตั้ง BRANHEARTH_PUBLIC_URL เป็นที่อยู่ที่โทรศัพท์เข้าถึงได้ก่อนพิมพ์",
};
