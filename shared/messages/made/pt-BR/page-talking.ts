// Made from ../../pt-BR/page-talking.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageTalkingParams } from '../params/page-talking.ts';

export const pageTalkingTexts: PageTexts<PageTalkingParams> = {
  "page-talking.line": [["<","name",[["probeName"]]]," ",["isRead",{"true":[["readText"]],"other":"nenhuma leitura ainda"},0],["isHeard",{"true":[["<","age",[", ",["heardAgoMs"]]]],"other":""},0]],
  "page-talking.rising": "subindo",
  "page-talking.warm": [["probeCount",{"=1":"Aqueça-a na mão para ter certeza: ela aparece então como subindo.","other":"Aqueça uma na mão para encontrá-la: a que sobe aparece marcada."},1]],
  "page-talking.offer": [["probeCount",{"=1":"Uma sonda envia. Ela está no centro?","other":[["#"]," sondas enviam. Qual está no centro?"]},1]],
  "page-talking.in-core": ["No centro",["<","aloud",[": ",["probeName"]]]],
  "page-talking.elsewhere": "Em outro lugar da pilha, ou desde outra hora",
  "page-talking.none": "Nenhuma delas ainda",
};
