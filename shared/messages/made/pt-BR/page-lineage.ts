// Made from ../../pt-BR/page-lineage.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLineageParams } from '../params/page-lineage.ts';

export const pageLineageTexts: PageTexts<PageLineageParams> = {
  "page-lineage.title": "A árvore das pilhas",
  "page-lineage.title.of": ["A família de ",["memberName"]],
  "page-lineage.batches": "Lotes",
  "page-lineage.none": "Nada foi anotado ainda.",
  "page-lineage.none.begin": [["<","link","Comece com um inóculo"],": daí em diante dá para segui-lo até cada canteiro."],
  "page-lineage.member": [["saysText"],["isUse",{"true":"","other":[["bedCount",{"=0":"; nenhum canteiro o tem ainda.","one":["; ",["#"]," lugar o tem."],"other":["; ",["#"]," lugares o têm."]},1]]},0]],
  "page-lineage.open": [["kind",{"batch":"Abrir o lote","other":"Abrir a partida"},0]],
  "page-lineage.came-from": "De onde veio",
  "page-lineage.came-from.none": "Nada se sabe sobre de onde veio.",
  "page-lineage.went-to": "Para onde foi",
  "page-lineage.went-to.none": "Ainda não foi para lugar nenhum.",
  "page-lineage.everything": "Tudo, por data",
  "page-lineage.kind": [["kind",{"lot":"Partida","batch":"Lote","use":"Uso","other":""},0]],
  "page-lineage.share": [["saysText"],"; ",["shareText"]," disso"],
  "page-lineage.tree": "A árvore, desenhada",
  "page-lineage.tree.title": "A família, das origens até os canteiros",
};
