// Made from ../../en/page-talking.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageTalkingParams } from '../params/page-talking.ts';

export const pageTalkingTexts: PageTexts<PageTalkingParams> = {
  "page-talking.line": [["<","name",[["probeName"]]]," ",["isRead",{"true":[["readText"]],"other":"no reading yet"},0],["isHeard",{"true":[["<","age",[", ",["heardAgoMs"]]]],"other":""},0]],
  "page-talking.rising": "rising",
  "page-talking.warm": [["probeCount",{"=1":"Warm it in your hand to be sure: it is then marked as rising.","other":"Warm one in your hand to find it: the one that rises is marked."},1]],
  "page-talking.offer": [["probeCount",{"=1":"One probe talks. Is it in the core?","other":[["#"]," probes talk. Which one is in the core?"]},1]],
  "page-talking.in-core": ["In the core",["<","aloud",[": ",["probeName"]]]],
  "page-talking.elsewhere": "Elsewhere in the pile, or since another time",
  "page-talking.none": "None of them yet",
};
