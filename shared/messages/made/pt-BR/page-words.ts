// Made from ../../pt-BR/page-words.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWordsParams } from '../params/page-words.ts';

export const pageWordsTexts: PageTexts<PageWordsParams> = {
  "page-words.length": [["unit",{"second":[["lengthCount"]," s"],"minute":[["lengthCount"]," min"],"hour":[["lengthCount"]," h"],"other":[["lengthCount",{"one":[["#"]," dia"],"other":[["#"]," dias"]},1]]},0]],
  "page-words.ago": ["há ",["lengthText"]],
  "page-words.just-now": "agora mesmo",
  "page-words.now": "agora",
  "page-words.due": [["due",{"now":"Agora","passed":["O prazo passou há ",["lengthText"],": ",["timeText"]],"other":["Até ",["timeText"]," (em ",["lengthText"],")"]},0]],
  "page-words.day": ["dia ",["dayNumber"]],
  "page-words.warning": [["warningText"],", ",["position",{"core":"centro","top":"topo","base":"base","edge":"borda","other":"ar"},0]],
  "page-words.new-warning": ["Novo aviso em ",["pileName"],": ",["warningText"],". ",["todoText"]],
  "page-words.state": [["state",{"normal":"normal","unacknowledged":"não marcado como visto","acknowledged":"marcado como visto","returned":"terminado, ainda não marcado como visto","shelved":["adiado",["hasEnd",{"true":[" até ",["untilText"]],"other":""},0]],"other":"fora de serviço"},0]],
  "page-words.silenced": [["warningText"],", ",["stateText"],"."],
  "page-words.no-answer": "O Branhearth não responde. Ele está ligado, e este aparelho está na mesma rede?",
  "page-words.held-up": "Você saiu neste aparelho, e o servidor ainda não sabe disso.",
  "page-words.unreadable": ["A resposta de ",["pathText"]," não é uma que esta página conheça. Carregue a página de novo."],
  "page-words.refused": "Recusado",
  "page-words.refused.says": ["O servidor recusou isto e não disse por quê (HTTP ",["statusText"],")."],
  "page-words.not-number": "Não é um número",
  "page-words.not-number.says": "Nada foi guardado: um campo que pede um número tem outra coisa.",
  "page-words.not-number.field": ["Isto não é um número. Escreva um, como ",["exampleNumber"],"."],
};
