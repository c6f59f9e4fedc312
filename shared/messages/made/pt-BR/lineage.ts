// Made from ../../pt-BR/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.batch-name": "{stage, select, bran {Farelo} soil {Terra} other {Lote}} de {laidDay}, {pileName}",
  "lineage.batch": "{stage, select, bran {farelo} soil {terra} other {lote}}, montagem de {laidDayMs} em {pileName}{ending, select, finished {, terminado} continued {, passou para a próxima etapa} split {, dividido} merged {, juntado a outros} used {, usado por inteiro} abandoned {, abandonado} other {}}",
  "lineage.use": "{target, select, bed {espalhado em um canteiro} compost {posto no composto} potting {misturado em substrato} store {guardado} given {dado} other {usado}} em {usedDayMs}{isWeighed, select, true {, {usedKg}} other {}}",
  "lineage.starter": "inóculo{isPlaceKnown, select, true { coletado em {placeName}} other {}}{isDayKnown, select, true {, {collectedDayMs}} other {}}",
  "lineage.material": "{materialPart}{isSupplierKnown, select, true { de {supplierName}} other {}}{isNumbered, select, true {, partida {numberName}} other {}}{organic, select, certified {, orgânico: certificado} conversion {, orgânico: em conversão} not {, orgânico: não certificado} other {}}",
  "lineage.water": "água",
  "lineage.sugar": "açúcar",
  "lineage.remark.more-out-than-in": "Anotou-se que foram tirados {outKg} e {isLaid, select, true {montados} other {postos}} {thereKg}: a água posta desde então pode explicar isso, ou um erro ao escrever.",
};
