// Made from ../../en/weather.json by `npm run messages`; change that instead.
export const weatherTexts = {
  "weather.other-form": "its answer is not of the form that it documents",
  "weather.unusable": "{pointerText} {saidPart}",
  "weather.own-source": "your own source",
};
