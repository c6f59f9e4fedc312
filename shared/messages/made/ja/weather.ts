// Made from ../../ja/weather.json by `npm run messages`; change that instead.
export const weatherTexts = {
  "weather.other-form": "応答が、文書にある形ではありません",
  "weather.unusable": "{pointerText} {saidPart}",
  "weather.own-source": "自分の情報源",
};
