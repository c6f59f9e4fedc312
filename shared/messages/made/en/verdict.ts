// Made from ../../en/verdict.json by `npm run messages`; change that instead.
export const verdictTexts = {
  "verdict.why.smelt-good": "it smelt good",
  "verdict.why.grew-white": "it grew white all through",
  "verdict.why.kept-warm": "it warmed as it should",
  "verdict.why.too-hot": "it got too hot",
  "verdict.why.too-cool": "it never got warm enough",
  "verdict.why.too-wet": "it was too wet",
  "verdict.why.too-dry": "it was too dry",
  "verdict.why.smelt-bad": "it smelt bad",
  "verdict.why.other-growth": "something other than white grew on it",
  "verdict.why.pests": "pests got into it",
  "verdict.why.uneven": "it worked in some places only",
  "verdict.seen.peak": "The core reached {peakC}.",
  "verdict.seen.peak-low": "The core reached {peakC} at most; it should reach {comfortMinC}.",
  "verdict.seen.comfort": "The core was between {comfortMinC} and {comfortMaxC} for {comfortH}, of {measuredH} measured.",
  "verdict.seen.warned": "A warning said so for {stoodH}.",
  "verdict.seen.noted": "Written down: {entryPart}.",
};
