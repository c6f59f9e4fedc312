// Made from ../../pt-BR/page-units.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageUnitsParams } from '../params/page-units.ts';

export const pageUnitsTexts: PageTexts<PageUnitsParams> = {
  "page-units.says": ["Em ",["mass",{"kg":"quilogramas","lb":"libras","other":""},0],", ",["volume",{"L":"litros","gal":"galões dos EUA","other":""},0],", ",["length",{"m":"metros","ft":"pés","other":""},0],", ",["temperatureText"]],
  "page-units.mass": "Massa",
  "page-units.volume": "Volume",
  "page-units.length": "Comprimento",
  "page-units.temperature": "Temperatura",
};
