// Made from ../../ko/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.batch-name": "{stage, select, bran {겨} soil {흙} other {회차}} {laidDayMs}, {pileName}",
  "lineage.batch": "{stage, select, bran {겨} soil {흙} other {회차}}, {laidDayMs}에 쌓음, {pileName}{ending, select, finished {, 마침} continued {, 다음 단계로 넘김} split {, 나눔} merged {, 다른 것과 합침} used {, 다 씀} abandoned {, 포기함} other {}}",
  "lineage.use": "{target, select, bed {두둑에 폄} compost {퇴비에 넣음} potting {상토에 섞음} store {보관함} given {남에게 줌} other {씀}} {usedDayMs}{isWeighed, select, true {, {usedKg}} other {}}",
  "lineage.starter": "종균{isPlaceKnown, select, true {, 모은 곳 {placeName}} other {}}{isDayKnown, select, true {, {collectedDayMs}} other {}}",
  "lineage.material": "{materialPart}{isSupplierKnown, select, true {, 산 곳 {supplierName}} other {}}{isNumbered, select, true {, 묶음 {numberName}} other {}}{organic, select, certified {, 유기: 인증} conversion {, 유기: 전환 중} not {, 유기: 인증 아님} other {}}",
  "lineage.water": "물",
  "lineage.sugar": "설탕",
  "lineage.remark.more-out-than-in": "적힌 양이 달라요. 덜어 낸 것: {outKg}, {isLaid, select, true {쌓은} other {넣은}} 것: {thereKg}. 그 뒤에 준 물 때문이거나 잘못 적은 것일 수 있어요.",
};
