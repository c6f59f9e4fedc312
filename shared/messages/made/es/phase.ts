// Made from ../../es/phase.json by `npm run messages`; change that instead.
export const phaseTexts = {
  "phase.counts-as": "Cuenta como {phase, select, resting {en reposo} warming {en calentamiento} active {activa} cooling {en enfriamiento} settled {asentada} other {desconocida}}: {reasonPart}.",
  "phase.reason.just-laid": "se armó, y todavía no se ha visto subir su centro",
  "phase.reason.heat-began": "el centro empezó a subir por encima del aire",
  "phase.reason.heat-faded": "el primer calor se apagó antes de que trabajara",
  "phase.reason.reached-working-heat": "el centro alcanzó su calor de trabajo",
  "phase.reason.fell-from-its-peak": "el centro bajó claramente de su máximo y sigue bajando",
  "phase.reason.reheated": "el centro volvió a subir",
  "phase.reason.back-near-air": "el centro volvió a menos de {nearK} del aire y se quedó ahí",
  "phase.lost-culture-signs": "Hilos blancos nuevos y olor dulce o a tierra hablan a favor; en contra, que no huela a nada, que huela a quemado, a amoníaco o a podrido, o que haya manchas grises, secas como ceniza.",
  "phase.past-heat.unjudged": "{position, select, core {El centro} top {La parte de arriba} base {La base} edge {El borde} other {La pila}} estuvo a {lossC} o más durante {lossH}, hasta {peakC}. Sus microorganismos pueden haberse perdido, y nadie ha olido ni mirado la pila desde entonces.",
  "phase.past-heat.judged": "{position, select, core {El centro} top {La parte de arriba} base {La base} edge {El borde} other {La pila}} estuvo a {lossC} o más durante {lossH}, hasta {peakC}; alguien ha olido o mirado la pila desde entonces.",
  "phase.past-heat.brief": "{position, select, core {El centro} top {La parte de arriba} base {La base} edge {El borde} other {La pila}} llegó a {peakC} y estuvo a {lossC} o más durante {lossH}.",
  "phase.past-heat.hot": "{position, select, core {El centro} top {La parte de arriba} base {La base} edge {El borde} other {La pila}} estuvo a {actC} o más durante {actH}, hasta {peakC}.",
};
