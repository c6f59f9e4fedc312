// Made from ../../th/page-lineage.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLineageParams } from '../params/page-lineage.ts';

export const pageLineageTexts: PageTexts<PageLineageParams> = {
  "page-lineage.title": "สายที่มาของฟาร์ม",
  "page-lineage.title.of": ["สายที่มาของ ",["memberName"]],
  "page-lineage.batches": "รุ่น",
  "page-lineage.none": "ยังไม่ได้จดอะไร",
  "page-lineage.none.begin": [["<","link","เริ่มจากหัวเชื้อ"],": จากนั้นติดตามไปได้ถึงทุกแปลง"],
  "page-lineage.member": [["saysText"],["isUse",{"true":"","other":[["bedCount",{"=0":"; ยังไม่ไปถึงแปลงใด","other":["; ไปถึงแล้ว ",["#"]," ที่"]},1]]},0]],
  "page-lineage.open": [["kind",{"batch":"เปิดรุ่น","other":"เปิดล็อต"},0]],
  "page-lineage.came-from": "มาจากไหน",
  "page-lineage.came-from.none": "ไม่มีใครรู้ว่ามาจากไหน",
  "page-lineage.went-to": "ไปที่ไหน",
  "page-lineage.went-to.none": "ยังไม่ได้ไปที่ไหน",
  "page-lineage.everything": "ทั้งหมด ตามวันที่",
  "page-lineage.kind": [["kind",{"lot":"ล็อต","batch":"รุ่น","use":"การใช้","other":""},0]],
  "page-lineage.share": [["saysText"],"; ",["shareText"]," ของทั้งหมด"],
  "page-lineage.tree": "สายที่มา เป็นภาพวาด",
  "page-lineage.tree.title": "สายที่มา จากต้นทางลงไปถึงแปลง",
};
