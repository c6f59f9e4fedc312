// Made from ../../ko/verdict.json by `npm run messages`; change that instead.
export const verdictTexts = {
  "verdict.why.smelt-good": "냄새가 좋았음",
  "verdict.why.grew-white": "전체에 흰 균이 자랐음",
  "verdict.why.kept-warm": "제대로 데워졌음",
  "verdict.why.too-hot": "너무 뜨거웠음",
  "verdict.why.too-cool": "충분히 따뜻해지지 않음",
  "verdict.why.too-wet": "너무 젖었음",
  "verdict.why.too-dry": "너무 말랐음",
  "verdict.why.smelt-bad": "나쁜 냄새가 났음",
  "verdict.why.other-growth": "희지 않은 균이 자랐음",
  "verdict.why.pests": "벌레가 생김",
  "verdict.why.uneven": "군데군데만 발효함",
  "verdict.seen.peak": "중심부가 {peakC}에 이르렀어요.",
  "verdict.seen.peak-low": "중심부가 {peakC}까지만 올랐어요. {comfortMinC}에 이르러야 해요.",
  "verdict.seen.comfort": "중심부가 {comfortMinC}에서 {comfortMaxC} 사이였던 시간은 {comfortH}, 잰 시간은 {measuredH}.",
  "verdict.seen.warned": "{stoodH} 동안 그런 경고가 있었어요.",
  "verdict.seen.noted": "적힌 것: {entryPart}.",
};
