// Made from ../../pt-BR/page-offset.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOffsetParams } from '../params/page-offset.ts';

export const pageOffsetTexts: PageTexts<PageOffsetParams> = {
  "page-offset.says": [["positionName"],", ",["measuredAtMs"],": ",["handC"]," pelo termômetro, ",["probeC"]," pela sonda. Se o seu termômetro está certo, a sonda mostra ",["isLow",{"true":[["byK"]," a menos"],"other":[["byK"]," a mais"]},0],"."],
  "page-offset.from-now": "O que ela disser de agora em diante é então corrigido por isso; o que disse antes fica como está.",
  "page-offset.take": "Adotar como correção da sonda",
};
