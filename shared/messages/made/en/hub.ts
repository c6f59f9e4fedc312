// Made from ../../en/hub.json by `npm run messages`; change that instead.
export const hubTexts = {
  "hub.temperature": "{position, select, core {Core temperature} top {Top temperature} base {Base temperature} edge {Edge temperature} air {Air temperature} other {}}",
  "hub.moisture": "Moisture by the water balance",
  "hub.condition": "Condition",
  "hub.next": "What to do next",
  "hub.warning": "Worst warning",
  "hub.last-heard": "Last heard",
  "hub.acknowledge": "Acknowledge warnings",
};
