// Made from ../../es/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.batch-name": "{stage, select, bran {Salvado} soil {Tierra} other {Lote}} del {laidDay}, {pileName}",
  "lineage.batch": "{stage, select, bran {lote de salvado} soil {lote de tierra} other {lote}}, armado el {laidDayMs} en {pileName}{ending, select, finished {, terminado} continued {, pasó a la etapa siguiente} split {, repartido} merged {, juntado con otros} used {, usado del todo} abandoned {, dado por perdido} other {}}",
  "lineage.use": "{target, select, bed {extendido en un cantero} compost {añadido al compost} potting {mezclado en sustrato para macetas} store {guardado} given {regalado} other {usado}}, {usedDayMs}{isWeighed, select, true {, {usedKg}} other {}}",
  "lineage.starter": "inóculo{isPlaceKnown, select, true { recolectado en {placeName}} other {}}{isDayKnown, select, true {, {collectedDayMs}} other {}}",
  "lineage.material": "{materialPart}{isSupplierKnown, select, true { de {supplierName}} other {}}{isNumbered, select, true {, partida {numberName}} other {}}{organic, select, certified {, orgánico: certificado} conversion {, orgánico: en conversión} not {, orgánico: no certificado} other {}}",
  "lineage.water": "agua",
  "lineage.sugar": "azúcar",
  "lineage.remark.more-out-than-in": "Se anotaron {outKg} como tomados y {thereKg} como {isLaid, select, true {armados} other {puestos}}: puede explicarlo el agua añadida desde entonces, o un error al escribir.",
};
