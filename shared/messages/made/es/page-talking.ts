// Made from ../../es/page-talking.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageTalkingParams } from '../params/page-talking.ts';

export const pageTalkingTexts: PageTexts<PageTalkingParams> = {
  "page-talking.line": [["<","name",[["probeName"]]]," ",["isRead",{"true":[["readText"]],"other":"todavía sin lectura"},0],["isHeard",{"true":[["<","age",[", ",["heardAgoMs"]]]],"other":""},0]],
  "page-talking.rising": "sube",
  "page-talking.warm": [["probeCount",{"=1":"Caliéntala en la mano para comprobarlo: entonces se marca que sube.","other":"Calienta una en la mano para encontrarla: la que sube queda marcada."},1]],
  "page-talking.offer": [["probeCount",{"=1":"Hay una sonda que envía. ¿Está en el centro?","other":["Hay ",["#"]," sondas que envían. ¿Cuál está en el centro?"]},1]],
  "page-talking.in-core": ["En el centro",["<","aloud",[": ",["probeName"]]]],
  "page-talking.elsewhere": "En otro lugar de la pila, o desde otra hora",
  "page-talking.none": "Ninguna todavía",
};
