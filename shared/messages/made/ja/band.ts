// Made from ../../ja/band.json by `npm run messages`; change that instead.
export const bandTexts = {
  "band.not-computed": "まだ計算していません",
  "band.model": "この仕込みの材料、高さ、覆い、{isAirMeasured, select, true {測った外気} other {中心部の始まりと同じくらいの暖かさの一日（外気の測定がないため）}}{actCount, plural, =0 {} other {、書かれた#件の作業}}から計算",
  "band.foretold": "この仕込みの材料、高さ、覆い、{isAirMeasured, select, true {測った外気とその先の予報の外気} other {予報の外気（外気の測定がないため）}}{actCount, plural, =0 {} other {、書かれた#件の作業}}から計算",
  "band.own": "天候にかかわらず、終わった自分の仕込み{batchCount, plural, other {#回分}}から",
  "band.both": "{modelPart}、および、天候にかかわらず、終わった自分の仕込み{batchCount, plural, other {#回分}}から",
};
