// Made from ../../ko/page-offset.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOffsetParams } from '../params/page-offset.ts';

export const pageOffsetTexts: PageTexts<PageOffsetParams> = {
  "page-offset.says": [["positionName"],", ",["measuredAtMs"],": 손으로 잰 값 ",["handC"],", 센서 값 ",["probeC"],". 온도계가 맞다면 센서가 ",["isLow",{"true":[["byK"]," 낮게"],"other":[["byK"]," 높게"]},0]," 나와요."],
  "page-offset.from-now": "이제부터 오는 값은 그만큼 바로잡아요. 전에 온 값은 그대로예요.",
  "page-offset.take": "센서의 보정값으로 쓰기",
};
