// Made from ../../pt-BR/weather.json by `npm run messages`; change that instead.
export const weatherTexts = {
  "weather.other-form": "a resposta não tem a forma que ele documenta",
  "weather.unusable": "{pointerText} {saidPart}",
  "weather.own-source": "a sua própria fonte",
};
