// Made from ../../es/page-best.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageBestParams } from '../params/page-best.ts';

export const pageBestTexts: PageTexts<PageBestParams> = {
  "page-best.title": "¿Cuál fue el mejor?",
  "page-best.title.year": ["¿Cuál fue el mejor de ",["yearText"],"?"],
  "page-best.stage": [["stage",{"bran":"Etapa de salvado","soil":"Etapa de tierra","other":""},0]],
  "page-best.best": [["<","link",[["batchName"]]],["isYear",{"true":[" fue el mejor de ",["yearText"]],"other":" fue el mejor"},0],": ",["judgedText"],"."],
  "page-best.alike": [["alikeCount",{"=1":["Otro más se calificó de ",["verdict",{"good":"bueno","usable":"utilizable","poor":"flojo","lost":"perdido","other":""},0]],"other":["Otros ",["#"]," se calificaron de ",["verdict",{"good":"buenos","usable":"utilizables","poor":"flojos","lost":"perdidos","other":""},0]]},1],".",["isMeasured",{"true":[" Va delante por lo que se midió: los avisos estuvieron en pie ",["alarmHours"],", y el centro estuvo en su banda de buena temperatura ",["comfortFrac"]," del tiempo."],"other":""},0]],
  "page-best.different": "En qué fue distinto",
  "page-best.groups": [["likeCount",{"=1":["El calificado de ",["verdict",{"good":"bueno","usable":"utilizable","poor":"flojo","lost":"perdido","other":""},0]],"other":["Los ",["#"]," calificados de ",["verdict",{"good":"buenos","usable":"utilizables","poor":"flojos","lost":"perdidos","other":""},0]]},1]," junto ",["lowerCount",{"=1":["al calificado de ",["lower",{"good":"bueno","usable":"utilizable","poor":"flojo","lost":"perdido","other":""},0]],"other":["a los ",["#"]," calificados de ",["lower",{"good":"buenos","usable":"utilizables","poor":"flojos","lost":"perdidos","other":""},0]]},1],["isYear",{"true":", de todos los años que se muestran","other":""},0],":"],
  "page-best.like": [["verdict",{"good":"los buenos","usable":"los utilizables","poor":"los flojos","lost":"los perdidos","other":""},0]],
  "page-best.own": [["batchName"],": ",["figureText"],"."],
  "page-best.none-lower": ["Ninguno se calificó más bajo, así que no hay nada que poner junto a ",["likeText"],"."],
  "page-best.rest": "Las demás medidas",
  "page-best.nobody": [["batchCount",{"=1":"Nadie ha calificado este lote todavía","other":["Nadie ha calificado estos ",["#"]," lotes todavía"]},1],", así que ninguno se puede llamar el mejor."],
  "page-best.unjudged": [["batchCount",{"=1":"Nadie ha calificado otro lote, que no cuenta","other":["Nadie ha calificado otros ",["#"]," lotes, que no cuentan"]},1]," ni como bueno ni como malo."],
  "page-best.order": "Primero va el veredicto de una persona; con el mismo veredicto, el lote que tuvo avisos en pie menos horas, y luego el que estuvo más tiempo en su banda de buena temperatura; es un orden nuestro.",
  "page-best.alike.names": [["alikeCount",{"=1":["El otro calificado de ",["verdict",{"good":"bueno","usable":"utilizable","poor":"flojo","lost":"perdido","other":""},0]],"other":["Los otros calificados de ",["verdict",{"good":"buenos","usable":"utilizables","poor":"flojos","lost":"perdidos","other":""},0]]},1]],
  "page-best.unjudged.names": "Sin calificar",
  "page-best.apart": [["apartCount",{"=0":"ninguna medida difiere con claridad.","=1":"una medida difiere con claridad.","other":[["#"]," medidas difieren con claridad."]},1]],
  "page-best.few": "muy pocos para decirlo.",
  "page-best.whys": ["Lo que se dijo de estos últimos: ",["whysText"],"."],
  "page-best.why": [["whyText"]," (",["saidCount"],")"],
  "page-best.why.own": "con sus palabras",
};
