// Made from ../../ko/weather.json by `npm run messages`; change that instead.
export const weatherTexts = {
  "weather.other-form": "답이 그 서비스의 문서에 나온 형식이 아님",
  "weather.unusable": "{pointerText}: {saidPart}",
  "weather.own-source": "직접 정한 출처",
};
