// Made from ../../ko/page-units.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageUnitsParams } from '../params/page-units.ts';

export const pageUnitsTexts: PageTexts<PageUnitsParams> = {
  "page-units.says": [["mass",{"kg":"킬로그램","lb":"파운드","other":""},0],", ",["volume",{"L":"리터","gal":"미국 갤런","other":""},0],", ",["length",{"m":"미터","ft":"피트","other":""},0],", ",["temperatureText"]],
  "page-units.mass": "무게",
  "page-units.volume": "부피",
  "page-units.length": "길이",
  "page-units.temperature": "온도",
};
