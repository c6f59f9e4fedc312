// Made from ../../th/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "กลับกอง: {pileName}",
  "calendar.check": "ตรวจ: {pileName}",
  "calendar.ready": "น่าจะได้ที่: {pileName}",
  "calendar.called-off": "ยังไม่ใช่ตอนนี้ กองกำลังร้อนขึ้นอย่างอันตราย: {pileName}",
  "calendar.yours": "ที่อยู่นี้เป็นของคุณ: ใครมีที่อยู่นี้ก็อ่านวันนัดได้ จนกว่าคุณจะเปลี่ยนใหม่",
  "calendar.yours-here": "ที่อยู่นี้เป็นของคุณ และเปิดได้บนเครื่องนี้เท่านั้น: ให้ตั้ง BRANHEARTH_PUBLIC_URL เป็นที่อยู่ที่โทรศัพท์เข้าถึงได้ ใครมีที่อยู่นี้ก็อ่านวันนัดได้ จนกว่าคุณจะเปลี่ยนใหม่",
};
