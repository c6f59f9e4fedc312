// Made from ../../ja/page-air-ahead.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageAirAheadParams } from '../params/page-air-ahead.ts';

export const pageAirAheadTexts: PageTexts<PageAirAheadParams> = {
  "page-air-ahead.used": ["これからの",["aheadMs"],"の予報の外気（",["sourceText"],"、",["sinceMs"],"前のもの）を計算に入れています。"],
  "page-air-ahead.fresh": ["これからの",["aheadMs"],"の予報の外気（",["sourceText"],"、たったいまのもの）を計算に入れています。"],
  "page-air-ahead.licence": [["sourceText"],"のデータ（",["<","licence","CC BY 4.0"],"）。山のそばで外気を測っているときは、それに合わせて直しています。"],
};
