// Made from ../../ko/page-air-ahead.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageAirAheadParams } from '../params/page-air-ahead.ts';

export const pageAirAheadTexts: PageTexts<PageAirAheadParams> = {
  "page-air-ahead.used": ["앞으로 ",["aheadMs"]," 동안의 기온 예보(",["sourceText"],", ",["sinceMs"]," 전에 나옴)를 넣어 계산해요."],
  "page-air-ahead.fresh": ["앞으로 ",["aheadMs"]," 동안의 기온 예보(",["sourceText"],", 방금 나옴)를 넣어 계산해요."],
  "page-air-ahead.licence": [["sourceText"],"의 데이터, ",["<","licence","CC BY 4.0"],". 더미 옆에서 기온을 재는 곳에서는 그것으로 바로잡아요."],
};
