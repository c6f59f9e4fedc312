// Made from ../../pt-BR/verdict.json by `npm run messages`; change that instead.
export const verdictTexts = {
  "verdict.why.smelt-good": "cheirava bem",
  "verdict.why.grew-white": "cresceu branco por inteiro",
  "verdict.why.kept-warm": "aqueceu como deveria",
  "verdict.why.too-hot": "ficou quente demais",
  "verdict.why.too-cool": "nunca ficou quente o bastante",
  "verdict.why.too-wet": "estava molhado demais",
  "verdict.why.too-dry": "estava seco demais",
  "verdict.why.smelt-bad": "cheirava mal",
  "verdict.why.other-growth": "cresceu nele algo que não era branco",
  "verdict.why.pests": "entraram pragas",
  "verdict.why.uneven": "só trabalhou em algumas partes",
  "verdict.seen.peak": "O centro chegou a {peakC}.",
  "verdict.seen.peak-low": "O centro chegou no máximo a {peakC}; deveria chegar a {comfortMinC}.",
  "verdict.seen.comfort": "O centro esteve entre {comfortMinC} e {comfortMaxC} por {comfortH}, de {measuredH} medidas.",
  "verdict.seen.warned": "Um aviso disse isso por {stoodH}.",
  "verdict.seen.noted": "Anotado: {entryPart}.",
};
