// Made from ../../ko/page-talking.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageTalkingParams } from '../params/page-talking.ts';

export const pageTalkingTexts: PageTexts<PageTalkingParams> = {
  "page-talking.line": [["<","name",[["probeName"]]]," ",["isRead",{"true":[["readText"]],"other":"아직 측정값 없음"},0],["isHeard",{"true":[["<","age",[", ",["heardAgoMs"]]]],"other":""},0]],
  "page-talking.rising": "오르는 중",
  "page-talking.warm": [["probeCount",{"=1":"확인하려면 손으로 쥐어 데워 보세요. 그러면 오르는 중이라고 표시돼요.","other":"찾으려면 하나를 손으로 쥐어 데워 보세요. 오르는 것이 표시돼요."},1]],
  "page-talking.offer": [["probeCount",{"=1":"센서 하나가 값을 보내요. 중심부에 있나요?","other":["센서 ",["#"],"개가 값을 보내요. 어느 것이 중심부에 있나요?"]},1]],
  "page-talking.in-core": ["중심부에 있음",["<","aloud",[": ",["probeName"]]]],
  "page-talking.elsewhere": "더미의 다른 자리에, 또는 다른 때부터",
  "page-talking.none": "아직 없음",
};
