// Made from ../../es/page-offset.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOffsetParams } from '../params/page-offset.ts';

export const pageOffsetTexts: PageTexts<PageOffsetParams> = {
  "page-offset.says": [["positionName"],", ",["measuredAtMs"],": ",["handC"]," a mano, ",["probeC"]," según su sonda. Si tu termómetro está bien, la sonda marca ",["isLow",{"true":[["byK"]," de menos"],"other":[["byK"]," de más"]},0],"."],
  "page-offset.from-now": "Lo que diga desde ahora se corrige con eso; lo que dijo antes se queda.",
  "page-offset.take": "Tomarlo como corrección de la sonda",
};
