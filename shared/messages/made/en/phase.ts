// Made from ../../en/phase.json by `npm run messages`; change that instead.
export const phaseTexts = {
  "phase.counts-as": "It counts as {phase, select, resting {resting} warming {warming} active {active} cooling {cooling} settled {settled} other {unknown}}: {reasonPart}.",
  "phase.reason.just-laid": "it was laid, and its core has not been seen to rise yet",
  "phase.reason.heat-began": "the core began to rise above the air",
  "phase.reason.heat-faded": "the first warmth faded before it worked",
  "phase.reason.reached-working-heat": "the core reached its working heat",
  "phase.reason.fell-from-its-peak": "the core fell clearly below its peak and keeps falling",
  "phase.reason.reheated": "the core rose again",
  "phase.reason.back-near-air": "the core came back to within {nearK} of the air and stayed there",
  "phase.lost-culture-signs": "New white threads and a sweet or earthy smell speak for it; no smell or a scorched one, grey patches dry as ash, ammonia or rot speak against it.",
  "phase.past-heat.unjudged": "The {position, select, core {core} top {top} base {base} edge {edge} other {pile}} lay at {lossC} or more for {lossH}, up to {peakC}. Its culture may be lost, and nobody has smelt or looked at it since.",
  "phase.past-heat.judged": "The {position, select, core {core} top {top} base {base} edge {edge} other {pile}} lay at {lossC} or more for {lossH}, up to {peakC}; somebody has smelt or looked at it since.",
  "phase.past-heat.brief": "The {position, select, core {core} top {top} base {base} edge {edge} other {pile}} came up to {peakC}, and lay at {lossC} or more for {lossH}.",
  "phase.past-heat.hot": "The {position, select, core {core} top {top} base {base} edge {edge} other {pile}} lay at {actC} or more for {actH}, up to {peakC}.",
};
