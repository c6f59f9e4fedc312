// Made from ../../ja/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.batch-name": "{pileName}、{laidDayMs}の{stage, select, bran {ぬか} soil {土} other {仕込み}}",
  "lineage.batch": "{stage, select, bran {ぬか} soil {土} other {仕込み}}、{laidDayMs}に{pileName}へ仕込み{ending, select, finished {、完了} continued {、次の段階に移した} split {、分けた} merged {、ほかと合わせた} used {、使い切った} abandoned {、やめた} other {}}",
  "lineage.use": "{target, select, bed {畝にまいた} compost {堆肥に加えた} potting {培養土に混ぜた} store {保管した} given {人にあげた} other {使った}}、{usedDayMs}{isWeighed, select, true {、{usedKg}} other {}}",
  "lineage.starter": "種菌{isPlaceKnown, select, true {、{placeName}で採取} other {}}{isDayKnown, select, true {、{collectedDayMs}} other {}}",
  "lineage.material": "{materialPart}{isSupplierKnown, select, true {、{supplierName}から} other {}}{isNumbered, select, true {、ロット{numberName}} other {}}{organic, select, certified {、有機：認証済み} conversion {、有機：転換中} not {、有機：認証なし} other {}}",
  "lineage.water": "水",
  "lineage.sugar": "砂糖",
  "lineage.remark.more-out-than-in": "取った量は{outKg}、{isLaid, select, true {仕込んだ} other {入れた}}量は{thereKg}と書かれています。その後に加えた水か、書き間違いかもしれません。",
};
