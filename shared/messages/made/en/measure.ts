// Made from ../../en/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "Nobody has measured the core yet: measure it with a long-stem thermometer.",
  "measure.probe-lost": "The core probe cannot tell how it is: measure the core with a long-stem thermometer.",
  "measure.due": "Measure the core again by {dueAtMs}",
  "measure.overdue": "Measure the core now, it was due by {dueAtMs}",
  "measure.quiet": "{duePart}: twice a day is enough while it is quiet.",
  "measure.not-known-yet": "{duePart}: one measurement does not show how fast it warms.",
  "measure.near-limit": "{duePart}: it is close to the {actC} at which to act.",
  "measure.climbing": "{duePart}: it is warming towards the {actC} at which to act.",
  "measure.over-limit": "{duePart}: it is over the {actC} at which to act.",
};
