// Made from ../../pt-BR/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "Boas-vindas",
  "page-welcome.none": "Nenhuma pilha está sendo vigiada ainda.",
  "page-welcome.none.hint": "Um responsável ou um proprietário monta a primeira; ela aparece então aqui.",
  "page-welcome.practise-meanwhile": ["Enquanto isso, ",["<","link","pratique em uma pilha simulada"],"."],
  "page-welcome.lay-first": "Nenhuma pilha está sendo vigiada ainda. Monte a primeira.",
  "page-welcome.lead": "Branhearth escuta as sondas das suas pilhas de farelo e de terra, diz em palavras simples como cada pilha está e o que fazer a seguir, e guarda o relatório de cada lote.",
  "page-welcome.demo": ["Pare o programa, execute ",["<","command","npm run demo"]," na pasta dele, e esta página mostra um sítio inventado com quatro pilhas, em tempo acelerado e em uma pasta de rascunho."],
  "page-welcome.publish": ["Uma sonda publica por MQTT em ",["<","topic",[["topicText"]]],". Para testar sem sonda, execute isto na pasta do Branhearth",["isOnlyHere",{"true":"","other":", aqui ou em outra máquina"},0],":"],
  "page-welcome.copy": "Copiar",
  "page-welcome.copied": "Copiado",
  "page-welcome.broker": ["O broker está ",["stateText"],": ",["detailText"]],
  "page-welcome.have": "O que você tem?",
  "page-welcome.have.thermometer": "Um termômetro",
  "page-welcome.have.sensor": "Um sensor que já envia",
  "page-welcome.have.parts": "Peças para montar uma sonda",
  "page-welcome.have.nothing": "Nada ainda: quero ver",
  "page-welcome.thermometer": "Enfie o termômetro até o meio da pilha, espere até o número parar e diga o que ele mostra.",
  "page-welcome.parts": [["<","link","Como montar uma sonda"],": o que comprar, como ligar os fios, e uma configuração pronta para carregar. Assim que ela enviar, aparece aqui."],
  "page-welcome.nothing": "Uma pilha simulada nas suas mãos: leva alguns minutos e não precisa de sonda.",
  "page-welcome.nothing.do": "Praticar em uma pilha simulada",
  "page-welcome.sensor.where": "Para onde ele envia",
  "page-welcome.sensor.pile": "A pilha",
};
