// Made from ../../th/weather.json by `npm run messages`; change that instead.
export const weatherTexts = {
  "weather.other-form": "คำตอบไม่ใช่รูปแบบที่บริการนั้นบอกไว้",
  "weather.unusable": "{pointerText} {saidPart}",
  "weather.own-source": "แหล่งของคุณเอง",
};
