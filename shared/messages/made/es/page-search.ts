// Made from ../../es/page-search.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageSearchParams } from '../params/page-search.ts';

export const pageSearchTexts: PageTexts<PageSearchParams> = {
  "page-search.title": "Buscar",
  "page-search.label": "Buscar pilas, lotes, anotaciones y sondas",
  "page-search.hint": "Palabras en cualquier orden; los acentos no importan.",
  "page-search.looking": "Buscando…",
  "page-search.none": "Nada contiene todas estas palabras.",
  "page-search.group": [["group",{"piles":"Pilas","batches":"Lotes","entries":"Diario","other":"Sondas"},0]],
  "page-search.count": [["foundCount",{"=1":"un resultado","other":[["#"]," resultados"]},1]],
  "page-search.more": ["Se muestran ",["shownCount",{"one":"el primero","other":["los primeros ",["#"]]},1],". Escribe más para encontrar menos."],
  "page-search.cut": ["Del diario se miraron las ",["entryCount",{"other":[["#"]]},1]," anotaciones más recientes."],
  "page-search.entry": [["whenText"],["isNamed",{"true":[", ",["byName"]],"other":""},0]],
  "page-search.probe.free": "todavía en ninguna pila",
};
