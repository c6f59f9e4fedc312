// Made from ../../es/page-lineage.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLineageParams } from '../params/page-lineage.ts';

export const pageLineageTexts: PageTexts<PageLineageParams> = {
  "page-lineage.title": "El árbol de la finca",
  "page-lineage.title.of": ["La familia de ",["memberName"]],
  "page-lineage.batches": "Lotes",
  "page-lineage.none": "Todavía no hay nada anotado.",
  "page-lineage.none.begin": [["<","link","Empieza por un inóculo"],": desde ahí se puede seguir hasta cada cantero."],
  "page-lineage.member": [["saysText"],["isUse",{"true":"","other":[["bedCount",{"=0":"; todavía no está en ningún cantero.","one":["; está en ",["#"]," lugar."],"other":["; está en ",["#"]," lugares."]},1]]},0]],
  "page-lineage.open": [["kind",{"batch":"Abrir el lote","other":"Abrir la partida"},0]],
  "page-lineage.came-from": "De dónde viene",
  "page-lineage.came-from.none": "No se sabe nada de dónde viene.",
  "page-lineage.went-to": "Adónde fue",
  "page-lineage.went-to.none": "Todavía no ha ido a ninguna parte.",
  "page-lineage.everything": "Todo, por fecha",
  "page-lineage.kind": [["kind",{"lot":"Partida","batch":"Lote","use":"Uso","other":""},0]],
  "page-lineage.share": [["saysText"],"; ",["shareText"]," de ello"],
  "page-lineage.tree": "Árbol, dibujado",
  "page-lineage.tree.title": "La familia, desde sus orígenes hasta los canteros",
};
