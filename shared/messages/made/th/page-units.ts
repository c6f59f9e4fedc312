// Made from ../../th/page-units.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageUnitsParams } from '../params/page-units.ts';

export const pageUnitsTexts: PageTexts<PageUnitsParams> = {
  "page-units.says": ["เป็น",["mass",{"kg":"กิโลกรัม","lb":"ปอนด์","other":""},0]," ",["volume",{"L":"ลิตร","gal":"แกลลอนสหรัฐฯ","other":""},0]," ",["length",{"m":"เมตร","ft":"ฟุต","other":""},0]," ",["temperatureText"]],
  "page-units.mass": "มวล",
  "page-units.volume": "ปริมาตร",
  "page-units.length": "ความยาว",
  "page-units.temperature": "อุณหภูมิ",
};
