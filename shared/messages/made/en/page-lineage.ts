// Made from ../../en/page-lineage.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLineageParams } from '../params/page-lineage.ts';

export const pageLineageTexts: PageTexts<PageLineageParams> = {
  "page-lineage.title": "The farm’s family tree",
  "page-lineage.title.of": ["The family of ",["memberName"]],
  "page-lineage.batches": "Batches",
  "page-lineage.none": "Nothing is written down yet.",
  "page-lineage.none.begin": [["<","link","Begin with a starter"],": from then on it can be followed to every bed."],
  "page-lineage.member": [["saysText"],["isUse",{"true":"","other":[["bedCount",{"=0":"; no bed has it yet.","one":["; ",["#"]," place has it."],"other":["; ",["#"]," places have it."]},1]]},0]],
  "page-lineage.open": [["kind",{"batch":"Open the batch","other":"Open the lot"},0]],
  "page-lineage.came-from": "Where it came from",
  "page-lineage.came-from.none": "Nothing is known of where it came from.",
  "page-lineage.went-to": "Where it went",
  "page-lineage.went-to.none": "It has not gone anywhere yet.",
  "page-lineage.everything": "Everything, by date",
  "page-lineage.kind": [["kind",{"lot":"Lot","batch":"Batch","use":"Use","other":""},0]],
  "page-lineage.share": [["saysText"],"; ",["shareText"]," of it"],
  "page-lineage.tree": "Family tree, drawn",
  "page-lineage.tree.title": "The family, from its sources down to the beds",
};
