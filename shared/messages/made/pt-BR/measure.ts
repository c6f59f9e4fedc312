// Made from ../../pt-BR/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "Ninguém mediu o centro ainda: meça com um termômetro de haste longa.",
  "measure.probe-lost": "A sonda do centro não consegue dizer como está: meça o centro com um termômetro de haste longa.",
  "measure.due": "Meça o centro de novo até {dueAtMs}",
  "measure.overdue": "Meça o centro agora, era para ser até {dueAtMs}",
  "measure.quiet": "{duePart}: duas vezes por dia basta enquanto estiver calma.",
  "measure.not-known-yet": "{duePart}: uma só medição não mostra a velocidade com que aquece.",
  "measure.near-limit": "{duePart}: está perto dos {actC} em que é preciso agir.",
  "measure.climbing": "{duePart}: está aquecendo rumo aos {actC} em que é preciso agir.",
  "measure.over-limit": "{duePart}: está acima dos {actC} em que é preciso agir.",
};
