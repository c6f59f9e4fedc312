// Made from ../../ja/page-offset.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOffsetParams } from '../params/page-offset.ts';

export const pageOffsetTexts: PageTexts<PageOffsetParams> = {
  "page-offset.says": [["positionName"],"、",["measuredAtMs"],"：温度計で測ると",["handC"],"、センサーでは",["probeC"],"。あなたの温度計が正しければ、センサーは",["isLow",{"true":[["byK"],"低く"],"other":[["byK"],"高く"]},0],"示しています。"],
  "page-offset.from-now": "これからの値がそのぶん直されます。これまでの値はそのままです。",
  "page-offset.take": "センサーの補正値にする",
};
