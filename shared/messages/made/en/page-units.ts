// Made from ../../en/page-units.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageUnitsParams } from '../params/page-units.ts';

export const pageUnitsTexts: PageTexts<PageUnitsParams> = {
  "page-units.says": ["In ",["mass",{"kg":"kilograms","lb":"pounds","other":""},0],", ",["volume",{"L":"litres","gal":"US gallons","other":""},0],", ",["length",{"m":"metres","ft":"feet","other":""},0],", ",["temperatureText"]],
  "page-units.mass": "Mass",
  "page-units.volume": "Volume",
  "page-units.length": "Length",
  "page-units.temperature": "Temperature",
};
