// Made from ../../es/page-air-ahead.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageAirAheadParams } from '../params/page-air-ahead.ts';

export const pageAirAheadTexts: PageTexts<PageAirAheadParams> = {
  "page-air-ahead.used": ["Cuenta con el aire pronosticado para ",["aheadMs"]," (",["sourceText"],"), hecho hace ",["sinceMs"],"."],
  "page-air-ahead.fresh": ["Cuenta con el aire pronosticado para ",["aheadMs"]," (",["sourceText"],"), recién hecho."],
  "page-air-ahead.licence": ["Datos de ",["sourceText"]," bajo ",["<","licence","CC BY 4.0"],"; donde se mide el aire junto a la pila, se corrigen con eso."],
};
