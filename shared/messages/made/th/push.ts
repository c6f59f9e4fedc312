// Made from ../../th/push.json by `npm run messages`; change that instead.
export const pushTexts = {
  "push.acknowledge": "รับทราบ",
  "push.done": "รับทราบแล้ว",
  "push.not-done": "ตอนนี้ยังรับทราบไม่ได้",
  "push.failed": "รับทราบไม่สำเร็จ",
  "push.failed.says": "ติดต่อเซิร์ฟเวอร์จากที่นี่ไม่ได้ ให้แตะเพื่อเปิดกองแล้วลองใหม่",
  "push.unreadable": "เปิดหน้าต่าง ๆ เพื่อดูว่ามีอะไรใหม่",
};
