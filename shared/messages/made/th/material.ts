// Made from ../../th/material.json by `npm run messages`; change that instead.
export const materialTexts = {
  "material.wheat-bran": "รำข้าวสาลี",
  "material.rice-bran": "รำข้าวเจ้า",
  "material.soil": "ดินสวน",
  "material.compost": "ปุ๋ยหมักที่ได้ที่แล้ว",
  "material.soil-mix": "ส่วนผสมกับดิน",
  "material.compost-mix": "ส่วนผสมกับปุ๋ยหมัก",
  "material.other": "อย่างอื่น",
  "material.unnamed": "วัสดุ",
};
