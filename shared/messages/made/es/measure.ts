// Made from ../../es/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "Nadie ha medido el centro todavía: mídelo con un termómetro de vástago largo.",
  "measure.probe-lost": "La sonda del centro no puede decir cómo está: mide el centro con un termómetro de vástago largo.",
  "measure.due": "Mide el centro otra vez (a más tardar {dueAtMs})",
  "measure.overdue": "Mide ya el centro (tocaba a más tardar {dueAtMs})",
  "measure.quiet": "{duePart}: dos veces al día bastan mientras esté tranquila.",
  "measure.not-known-yet": "{duePart}: una sola medición no muestra lo rápido que se calienta.",
  "measure.near-limit": "{duePart}: está cerca de los {actC} a los que hay que actuar.",
  "measure.climbing": "{duePart}: se va calentando hacia los {actC} a los que hay que actuar.",
  "measure.over-limit": "{duePart}: está por encima de los {actC} a los que hay que actuar.",
};
