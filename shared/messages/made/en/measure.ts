// Made from ../../en/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "Nobody has measured the core yet: measure it with a long-stem thermometer.",
  "measure.probe-lost": "The core probe cannot tell how it is: measure the core with a long-stem thermometer.",
  "measure.quiet": "{isOverdue, select, true {Measure the core now, it was due by {dueAtMs}} other {Measure the core again by {dueAtMs}}}: twice a day is enough while it is quiet.",
  "measure.not-known-yet": "{isOverdue, select, true {Measure the core now, it was due by {dueAtMs}} other {Measure the core again by {dueAtMs}}}: one measurement does not show how fast it warms.",
  "measure.near-limit": "{isOverdue, select, true {Measure the core now, it was due by {dueAtMs}} other {Measure the core again by {dueAtMs}}}: it is close to the {actC} at which to act.",
  "measure.climbing": "{isOverdue, select, true {Measure the core now, it was due by {dueAtMs}} other {Measure the core again by {dueAtMs}}}: it is warming towards the {actC} at which to act.",
  "measure.over-limit": "{isOverdue, select, true {Measure the core now, it was due by {dueAtMs}} other {Measure the core again by {dueAtMs}}}: it is over the {actC} at which to act.",
};
