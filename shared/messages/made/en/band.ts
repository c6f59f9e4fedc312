// Made from ../../en/band.json by `npm run messages`; change that instead.
export const bandTexts = {
  "band.not-computed": "not computed yet",
  "band.model": "worked out from this batch's material, depth and cover, {isAirMeasured, select, true {the measured air} other {a day about as warm as its core began (as no air is measured)}}{actCount, plural, =0 {} one { and the one act you logged} other { and the # acts you logged}}",
  "band.foretold": "worked out from this batch's material, depth and cover, {isAirMeasured, select, true {the measured air and the air foretold after it} other {the air foretold (as no air is measured)}}{actCount, plural, =0 {} one { and the one act you logged} other { and the # acts you logged}}",
  "band.own": "from {batchCount, plural, one {# finished batch} other {# finished batches}} of your own, whatever their weather was",
  "band.both": "{modelPart}, and from {batchCount, plural, one {# finished batch} other {# finished batches}} of your own",
};
