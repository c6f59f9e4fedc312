// Made from ../../es/page-words.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWordsParams } from '../params/page-words.ts';

export const pageWordsTexts: PageTexts<PageWordsParams> = {
  "page-words.length": [["unit",{"second":[["lengthCount"]," s"],"minute":[["lengthCount"]," min"],"hour":[["lengthCount"]," h"],"other":[["lengthCount",{"one":[["#"]," día"],"other":[["#"]," días"]},1]]},0]],
  "page-words.ago": ["hace ",["lengthText"]],
  "page-words.just-now": "ahora mismo",
  "page-words.now": "ahora",
  "page-words.due": [["due",{"now":"Ahora","passed":["El plazo pasó hace ",["lengthText"],": ",["timeText"]],"other":["A más tardar: ",["timeText"]," (en ",["lengthText"],")"]},0]],
  "page-words.day": ["día ",["dayNumber"]],
  "page-words.warning": [["warningText"],", ",["position",{"core":"centro","top":"arriba","base":"base","edge":"borde","other":"aire"},0]],
  "page-words.new-warning": ["Aviso nuevo en ",["pileName"],": ",["warningText"],". ",["todoText"]],
  "page-words.state": [["state",{"normal":"normal","unacknowledged":"sin ver","acknowledged":"visto","returned":"terminado, sin ver todavía","shelved":["aplazado",["hasEnd",{"true":[" hasta: ",["untilText"]],"other":""},0]],"other":"fuera de servicio"},0]],
  "page-words.silenced": [["warningText"],", ",["stateText"],"."],
  "page-words.no-answer": "Branhearth no responde. ¿Está en marcha, y está este dispositivo en la misma red?",
  "page-words.held-up": "Saliste en este dispositivo, y el servidor todavía no lo sabe.",
  "page-words.unreadable": ["La respuesta de ",["pathText"]," no es una que esta página conozca. Carga la página otra vez."],
  "page-words.refused": "Rechazado",
  "page-words.refused.says": ["El servidor lo rechazó y no dio motivo (HTTP ",["statusText"],")."],
  "page-words.not-number": "No es un número",
  "page-words.not-number.says": "No se guardó nada: un campo que pide un número tiene otra cosa.",
  "page-words.not-number.field": ["Esto no es un número. Escribe uno, como ",["exampleNumber"],"."],
};
