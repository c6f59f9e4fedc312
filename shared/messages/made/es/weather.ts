// Made from ../../es/weather.json by `npm run messages`; change that instead.
export const weatherTexts = {
  "weather.other-form": "su respuesta no tiene la forma que documenta",
  "weather.unusable": "{pointerText} {saidPart}",
  "weather.own-source": "tu propia fuente",
};
