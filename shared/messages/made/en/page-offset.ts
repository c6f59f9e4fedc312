// Made from ../../en/page-offset.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOffsetParams } from '../params/page-offset.ts';

export const pageOffsetTexts: PageTexts<PageOffsetParams> = {
  "page-offset.says": [["positionName"],", ",["measuredAtMs"],": ",["handC"]," by hand, ",["probeC"]," by its probe. If your thermometer is right, the probe shows ",["isLow",{"true":[["byK"]," too little"],"other":[["byK"]," too much"]},0],"."],
  "page-offset.from-now": "What it says from now on is then put right by that; what it said before stays.",
  "page-offset.take": "Take it as the probe’s offset",
};
