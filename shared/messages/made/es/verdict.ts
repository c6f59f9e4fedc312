// Made from ../../es/verdict.json by `npm run messages`; change that instead.
export const verdictTexts = {
  "verdict.why.smelt-good": "olía bien",
  "verdict.why.grew-white": "creció blanco por todas partes",
  "verdict.why.kept-warm": "se calentó como debía",
  "verdict.why.too-hot": "tuvo demasiado calor",
  "verdict.why.too-cool": "nunca se calentó lo bastante",
  "verdict.why.too-wet": "tenía demasiada agua",
  "verdict.why.too-dry": "tenía muy poca agua",
  "verdict.why.smelt-bad": "olía mal",
  "verdict.why.other-growth": "creció algo que no era blanco",
  "verdict.why.pests": "le entraron plagas",
  "verdict.why.uneven": "trabajó solo en algunas partes",
  "verdict.seen.peak": "El centro llegó a {peakC}.",
  "verdict.seen.peak-low": "El centro llegó como mucho a {peakC}; debería llegar a {comfortMinC}.",
  "verdict.seen.comfort": "El centro estuvo entre {comfortMinC} y {comfortMaxC} durante {comfortH} de las {measuredH} que se midieron.",
  "verdict.seen.warned": "Un aviso lo dijo durante {stoodH}.",
  "verdict.seen.noted": "{entryPart}, según lo anotado.",
};
