// Made from ../../es/page-units.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageUnitsParams } from '../params/page-units.ts';

export const pageUnitsTexts: PageTexts<PageUnitsParams> = {
  "page-units.says": ["En ",["mass",{"kg":"kilogramos","lb":"libras","other":""},0],", ",["volume",{"L":"litros","gal":"galones de EE. UU.","other":""},0],", ",["length",{"m":"metros","ft":"pies","other":""},0],", ",["temperatureText"]],
  "page-units.mass": "Masa",
  "page-units.volume": "Volumen",
  "page-units.length": "Longitud",
  "page-units.temperature": "Temperatura",
};
