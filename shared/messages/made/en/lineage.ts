// Made from ../../en/lineage.json by `npm run messages`; change that instead.
export const lineageTexts = {
  "lineage.batch-name": "{stage, select, bran {Bran} soil {Soil} other {Batch}} of {laidDay}, {pileName}",
  "lineage.batch": "{stage, select, bran {bran} soil {soil} other {batch}}, laid {laidDayMs} on {pileName}{ending, select, finished {, finished} continued {, moved to the next stage} split {, split} merged {, put together with others} used {, used up} abandoned {, abandoned} other {}}",
  "lineage.use": "{target, select, bed {spread on a bed} compost {added to compost} potting {mixed into potting soil} store {put in store} given {given away} other {used}} {usedDayMs}{isWeighed, select, true {, {usedKg}} other {}}",
  "lineage.starter": "starter{isPlaceKnown, select, true { collected at {placeName}} other {}}{isDayKnown, select, true { {collectedDayMs}} other {}}",
  "lineage.material": "{materialPart}{isSupplierKnown, select, true { from {supplierName}} other {}}{isNumbered, select, true {, lot {numberName}} other {}}{organic, select, certified {, organic: certified} conversion {, organic: in conversion} not {, organic: not certified} other {}}",
  "lineage.water": "water",
  "lineage.sugar": "sugar",
  "lineage.remark.more-out-than-in": "{outKg} was written down as taken and {thereKg} as {isLaid, select, true {laid} other {put in}}: water added since may explain it, or a slip of the pen.",
};
