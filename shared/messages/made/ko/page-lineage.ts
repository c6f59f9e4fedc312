// Made from ../../ko/page-lineage.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLineageParams } from '../params/page-lineage.ts';

export const pageLineageTexts: PageTexts<PageLineageParams> = {
  "page-lineage.title": "농장의 계보",
  "page-lineage.title.of": ["계보: ",["memberName"]],
  "page-lineage.batches": "회차",
  "page-lineage.none": "아직 적힌 것이 없어요.",
  "page-lineage.none.begin": [["<","link","종균부터 적으세요"],". 그때부터 두둑 하나하나까지 따라갈 수 있어요."],
  "page-lineage.member": [["saysText"],["isUse",{"true":"","other":[["bedCount",{"=0":". 아직 두둑에 가지 않음.","other":[". ",["#"],"곳에 있음."]},1]]},0]],
  "page-lineage.open": [["kind",{"batch":"회차 열기","other":"묶음 열기"},0]],
  "page-lineage.came-from": "온 곳",
  "page-lineage.came-from.none": "어디서 왔는지 알 수 없어요.",
  "page-lineage.went-to": "간 곳",
  "page-lineage.went-to.none": "아직 아무 데도 가지 않았어요.",
  "page-lineage.everything": "모두, 날짜순",
  "page-lineage.kind": [["kind",{"lot":"묶음","batch":"회차","use":"쓰임","other":""},0]],
  "page-lineage.share": [["saysText"],". 그 가운데 ",["shareText"]],
  "page-lineage.tree": "계보 그림",
  "page-lineage.tree.title": "처음 모은 것에서 두둑까지의 계보",
};
