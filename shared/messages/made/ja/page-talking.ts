// Made from ../../ja/page-talking.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageTalkingParams } from '../params/page-talking.ts';

export const pageTalkingTexts: PageTexts<PageTalkingParams> = {
  "page-talking.line": [["<","name",[["probeName"]]]," ",["isRead",{"true":[["readText"]],"other":"まだ測定値なし"},0],["isHeard",{"true":[["<","age",["、",["heardAgoMs"]]]],"other":""},0]],
  "page-talking.rising": "上昇中",
  "page-talking.warm": [["probeCount",{"=1":"手で温めて確かめてください。上昇中の印が付きます。","other":"どれかを見つけるには、手で温めてください。上がったものに印が付きます。"},1]],
  "page-talking.offer": [["probeCount",{"=1":"1個のセンサーが値を送っています。中心部にありますか？","other":[["#"],"個のセンサーが値を送っています。中心部にあるのはどれですか？"]},1]],
  "page-talking.in-core": ["中心部",["<","aloud",["：",["probeName"]]]],
  "page-talking.elsewhere": "山の別の場所、または別の時刻から",
  "page-talking.none": "まだどれでもない",
};
