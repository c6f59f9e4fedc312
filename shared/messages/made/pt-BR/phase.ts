// Made from ../../pt-BR/phase.json by `npm run messages`; change that instead.
export const phaseTexts = {
  "phase.counts-as": "Conta como {phase, select, resting {em repouso} warming {aquecendo} active {ativa} cooling {esfriando} settled {assentada} other {desconhecida}}: {reasonPart}.",
  "phase.reason.just-laid": "foi montada, e ainda não se viu o centro subir",
  "phase.reason.heat-began": "o centro começou a subir acima do ar",
  "phase.reason.heat-faded": "o primeiro calor se perdeu antes de ela trabalhar",
  "phase.reason.reached-working-heat": "o centro chegou ao calor de trabalho",
  "phase.reason.fell-from-its-peak": "o centro caiu claramente abaixo do pico e continua caindo",
  "phase.reason.reheated": "o centro subiu de novo",
  "phase.reason.back-near-air": "o centro voltou a ficar a menos de {nearK} do ar e assim permaneceu",
  "phase.lost-culture-signs": "Fios brancos novos e um cheiro doce ou de terra são bons sinais; nenhum cheiro ou cheiro de queimado, manchas acinzentadas e secas como cinza, amônia ou podre são maus sinais.",
  "phase.past-heat.unjudged": "{position, select, core {O centro ficou} top {O topo ficou} base {A base ficou} edge {A borda ficou} other {A pilha ficou}} a {lossC} ou mais por {lossH}, chegando a {peakC}. Os microrganismos podem ter se perdido, e desde então ninguém cheirou nem olhou.",
  "phase.past-heat.judged": "{position, select, core {O centro ficou} top {O topo ficou} base {A base ficou} edge {A borda ficou} other {A pilha ficou}} a {lossC} ou mais por {lossH}, chegando a {peakC}; desde então alguém cheirou ou olhou.",
  "phase.past-heat.brief": "{position, select, core {O centro chegou} top {O topo chegou} base {A base chegou} edge {A borda chegou} other {A pilha chegou}} a {peakC} e ficou a {lossC} ou mais por {lossH}.",
  "phase.past-heat.hot": "{position, select, core {O centro ficou} top {O topo ficou} base {A base ficou} edge {A borda ficou} other {A pilha ficou}} a {actC} ou mais por {actH}, chegando a {peakC}.",
};
