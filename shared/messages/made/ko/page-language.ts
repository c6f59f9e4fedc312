// Made from ../../ko/page-language.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLanguageParams } from '../params/page-language.ts';

export const pageLanguageTexts: PageTexts<PageLanguageParams> = {
  "page-language.label": "언어",
  "page-language.as-browser": "브라우저에 맞춤",
  "page-language.hint": ["계정에 함께 저장되고, 메시지도 이 언어로 와요. 번역되지 않은 것은 다음 언어로 나와요: ",["fallbackName"],"."],
  "page-language.machine-made": "기계로 번역했고, 아직 기르는 사람이 읽지 않았어요.",
};
