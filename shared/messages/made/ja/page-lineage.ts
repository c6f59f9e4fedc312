// Made from ../../ja/page-lineage.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLineageParams } from '../params/page-lineage.ts';

export const pageLineageTexts: PageTexts<PageLineageParams> = {
  "page-lineage.title": "農場の系譜",
  "page-lineage.title.of": [["memberName"],"の系譜"],
  "page-lineage.batches": "仕込み",
  "page-lineage.none": "まだ何も書かれていません。",
  "page-lineage.none.begin": [["<","link","種菌から始めてください"],"。そこから、畝すべてまでたどれます。"],
  "page-lineage.member": [["saysText"],["isUse",{"true":"","other":[["bedCount",{"=0":"。まだどの畝にも使われていません。","other":["。",["#"],"か所にあります。"]},1]]},0]],
  "page-lineage.open": [["kind",{"batch":"仕込みを開く","other":"ロットを開く"},0]],
  "page-lineage.came-from": "来たところ",
  "page-lineage.came-from.none": "どこから来たか、何も分かっていません。",
  "page-lineage.went-to": "行ったところ",
  "page-lineage.went-to.none": "まだどこにも使われていません。",
  "page-lineage.everything": "すべて、日付順",
  "page-lineage.kind": [["kind",{"lot":"ロット","batch":"仕込み","use":"使い道","other":""},0]],
  "page-lineage.share": [["saysText"],"、そのうち",["shareText"]],
  "page-lineage.tree": "系譜の図",
  "page-lineage.tree.title": "もとから畝までの系譜",
};
