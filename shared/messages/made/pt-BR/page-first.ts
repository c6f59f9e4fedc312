// Made from ../../pt-BR/page-first.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageFirstParams } from '../params/page-first.ts';

export const pageFirstTexts: PageTexts<PageFirstParams> = {
  "page-first.server": "Servidor",
  "page-first.port": "Porta",
  "page-first.tls": "TLS",
  "page-first.tls.on": [["isTls",{"true":"ligado","other":"desligado"},0]],
  "page-first.only-here": ["O broker só responde a esta máquina: nada de outro aparelho chega a ele. ",["<","link","Deixar entrar sondas e um celular"]],
  "page-first.key.do": "Criar uma chave para o aparelho",
  "page-first.key.why": "Um aparelho em outro lugar precisa de uma chave: um nome de usuário e uma senha.",
  "page-first.key.unused": ["A chave “",["keyName"],"” foi criada ",["madeAgoMs"],", e nada chegou com ela desde que o servidor começou. Se a senha não foi copiada, crie outra aqui e revogue esta em ",["<","link","Chaves"],"."],
  "page-first.key.ask": "Um aparelho em outro lugar precisa de uma chave: peça uma a um proprietário.",
  "page-first.waiting": "Esperando a primeira mensagem. Nada chegou ao broker ainda.",
  "page-first.came": ["A primeira mensagem chegou ",["cameAtMs"],", em ",["<","mono",[["topicText"]]],"."],
  "page-first.unread": ["Uma mensagem em ",["<","mono",[["topicText"]]]," não pôde ser usada, ",["lastAgoMs"],". ",["whyText"]],
  "page-first.unused": ["Chegam mensagens em ",["<","mono",[["topicText"]]],", que Branhearth não conhece por si. ",["<","link","Dizer qual valor é"]],
  "page-first.turned-away": [["<","b",[["whatText"]]],", de ",["addressText"],", ",["lastAgoMs"],". ",["meaningText"]],
  "page-first.outside": "O seu próprio broker decide quem entra: é ele que sabe o que recusou.",
};
