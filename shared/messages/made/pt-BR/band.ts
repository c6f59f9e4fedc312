// Made from ../../pt-BR/band.json by `npm run messages`; change that instead.
export const bandTexts = {
  "band.not-computed": "ainda não calculada",
  "band.model": "calculada a partir do material, da altura e da cobertura deste lote, {isAirMeasured, select, true {do ar medido} other {de um dia mais ou menos tão quente quanto o centro no começo (pois nenhum ar é medido)}}{actCount, plural, =0 {} one { e da única ação que você anotou} other { e das # ações que você anotou}}",
  "band.foretold": "calculada a partir do material, da altura e da cobertura deste lote, {isAirMeasured, select, true {do ar medido e do ar previsto depois dele} other {do ar previsto (pois nenhum ar é medido)}}{actCount, plural, =0 {} one { e da única ação que você anotou} other { e das # ações que você anotou}}",
  "band.own": "a partir de {batchCount, plural, one {# lote seu terminado} other {# lotes seus terminados}}, qualquer que tenha sido o tempo",
  "band.both": "{modelPart}, e a partir de {batchCount, plural, one {# lote seu terminado} other {# lotes seus terminados}}",
};
