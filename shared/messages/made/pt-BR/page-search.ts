// Made from ../../pt-BR/page-search.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageSearchParams } from '../params/page-search.ts';

export const pageSearchTexts: PageTexts<PageSearchParams> = {
  "page-search.title": "Buscar",
  "page-search.label": "Buscar pilhas, lotes, anotações e sondas",
  "page-search.hint": "Palavras em qualquer ordem; os acentos não importam.",
  "page-search.looking": "Buscando…",
  "page-search.none": "Nada contém todas essas palavras.",
  "page-search.group": [["group",{"piles":"Pilhas","batches":"Lotes","entries":"Diário","other":"Sondas"},0]],
  "page-search.count": [["foundCount",{"=1":"um resultado","other":[["#"]," resultados"]},1]],
  "page-search.more": ["São mostrados ",["shownCount",{"one":"o primeiro","other":["os primeiros ",["#"]]},1],". Escreva mais para encontrar menos."],
  "page-search.cut": ["Do diário foram olhadas as ",["entryCount",{"other":[["#"]]},1]," anotações mais recentes."],
  "page-search.entry": [["whenText"],["isNamed",{"true":[", ",["byName"]],"other":""},0]],
  "page-search.probe.free": "ainda em nenhuma pilha",
};
