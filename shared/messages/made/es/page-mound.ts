// Made from ../../es/page-mound.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageMoundParams } from '../params/page-mound.ts';

export const pageMoundTexts: PageTexts<PageMoundParams> = {
  "page-mound.place": [["position",{"core":"centro","top":"arriba","base":"base","edge":"borde","air":"aire","other":""},0]],
  "page-mound.label": [["stand",{"silent":"callada","notMeasured":"sin medir","other":"sin sonda de calor"},0]],
  "page-mound.label.doubted": ["¿",["tempText"],"?"],
  "page-mound.doubted": [["tempText"],", en duda: un salto desde ",["fromText"]],
  "page-mound.section": ["Corte de la pila: ",["placesText"]],
  "page-mound.section.none": "Corte de la pila: todavía sin sondas asignadas",
  "page-mound.section.next": [["beforeText"],"; ",["nextText"]],
  "page-mound.section.measured": [["position",{"core":"centro","top":"arriba","base":"base","edge":"borde","air":"aire","other":""},0]," ",["isHot",{"true":[["heatText"]],"other":"temperatura sin medir"},0],["isDamp",{"true":[", ",["dampText"]],"other":""},0]],
  "page-mound.section.by-hand": [["position",{"core":"centro","top":"arriba","base":"base","edge":"borde","air":"aire","other":""},0],", medido a mano por última vez ",["ageText"],["wasHot",{"true":[", estaba a ",["wasText"]],"other":""},0]],
  "page-mound.section.silent": [["position",{"core":"centro","top":"arriba","base":"base","edge":"borde","air":"aire","other":""},0],", sonda callada",["hasSince",{"true":[" desde hace ",["sinceText"]],"other":""},0],["wasHot",{"true":[", marcaba ",["wasText"]],"other":""},0]],
  "page-mound.damp": ["Los puntos muestran la humedad según el balance de agua: cerca de ",["aboutCount"]," % de la masa húmeda, probablemente de ",["lowCount"]," a ",["highCount"]," %."],
  "page-mound.empty": "Dónde van las sondas en una pila: arriba, centro, borde, base, y el aire al lado",
  "page-mound.key": "Colores de los dibujos, de frío a caliente",
  "page-mound.key.says": "Cómo leer el dibujo de una pila: el color es calor, y el papel sin color es calor que ninguna sonda mide. Los puntos son humedad, más cuantos más hay; sin puntos, la humedad no se conoce. Un contorno a trazos es una sonda que calló, o una cuyo número saltó y todavía no se cree: lleva un signo de interrogación.",
};
