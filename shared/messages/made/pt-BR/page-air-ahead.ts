// Made from ../../pt-BR/page-air-ahead.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageAirAheadParams } from '../params/page-air-ahead.ts';

export const pageAirAheadTexts: PageTexts<PageAirAheadParams> = {
  "page-air-ahead.used": ["Conta com o ar previsto por mais ",["aheadMs"]," (",["sourceText"],"), previsão feita há ",["sinceMs"],"."],
  "page-air-ahead.fresh": ["Conta com o ar previsto por mais ",["aheadMs"]," (",["sourceText"],"), previsão feita agora mesmo."],
  "page-air-ahead.licence": ["Dados de ",["sourceText"]," sob ",["<","licence","CC BY 4.0"],"; onde se mede o ar ao lado da pilha, eles são corrigidos por essa medida."],
};
