// Made from ../../es/band.json by `npm run messages`; change that instead.
export const bandTexts = {
  "band.not-computed": "todavía no calculada",
  "band.model": "calculada con el material, la altura y la cubierta de este lote, {isAirMeasured, select, true {el aire medido} other {un día más o menos tan cálido como estaba su centro al empezar (porque no se mide el aire)}}{actCount, plural, =0 {} one { y la acción que anotaste} other { y las # acciones que anotaste}}",
  "band.foretold": "calculada con el material, la altura y la cubierta de este lote, {isAirMeasured, select, true {el aire medido y el pronosticado después} other {el aire pronosticado (porque no se mide el aire)}}{actCount, plural, =0 {} one { y la acción que anotaste} other { y las # acciones que anotaste}}",
  "band.own": "de {batchCount, plural, one {# lote terminado tuyo} other {# lotes terminados tuyos}}, con el tiempo que haya hecho",
  "band.both": "{modelPart}, y de {batchCount, plural, one {# lote terminado tuyo} other {# lotes terminados tuyos}}",
};
