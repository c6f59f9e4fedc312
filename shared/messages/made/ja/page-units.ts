// Made from ../../ja/page-units.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageUnitsParams } from '../params/page-units.ts';

export const pageUnitsTexts: PageTexts<PageUnitsParams> = {
  "page-units.says": ["単位：",["mass",{"kg":"キログラム","lb":"ポンド","other":""},0],"、",["volume",{"L":"リットル","gal":"米国ガロン","other":""},0],"、",["length",{"m":"メートル","ft":"フィート","other":""},0],"、",["temperatureText"]],
  "page-units.mass": "質量",
  "page-units.volume": "体積",
  "page-units.length": "長さ",
  "page-units.temperature": "温度",
};
