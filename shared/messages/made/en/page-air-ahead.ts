// Made from ../../en/page-air-ahead.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageAirAheadParams } from '../params/page-air-ahead.ts';

export const pageAirAheadTexts: PageTexts<PageAirAheadParams> = {
  "page-air-ahead.used": ["Reckons with the air foretold for the next ",["aheadMs"]," (",["sourceText"],"), made ",["sinceMs"]," ago."],
  "page-air-ahead.fresh": ["Reckons with the air foretold for the next ",["aheadMs"]," (",["sourceText"],"), made just now."],
  "page-air-ahead.licence": ["Data from ",["sourceText"]," under ",["<","licence","CC BY 4.0"],"; where air is measured beside the pile, they are put right by that."],
};
