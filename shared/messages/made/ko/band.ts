// Made from ../../ko/band.json by `npm run messages`; change that instead.
export const bandTexts = {
  "band.not-computed": "아직 계산하지 않음",
  "band.model": "이 회차의 재료, 높이, 덮개와 {isAirMeasured, select, true {잰 기온} other {처음 중심부만큼 따뜻한 하루(기온을 재지 않으므로)}}{actCount, plural, =0 {} other {, 적은 조치 #건}}에서 계산함",
  "band.foretold": "이 회차의 재료, 높이, 덮개와 {isAirMeasured, select, true {잰 기온과 그 뒤의 예보된 기온} other {예보된 기온(기온을 재지 않으므로)}}{actCount, plural, =0 {} other {, 적은 조치 #건}}에서 계산함",
  "band.own": "이 농장에서 끝난 회차 {batchCount, plural, other {#개}}에서, 날씨와 상관없이",
  "band.both": "{modelPart}, 그리고 이 농장에서 끝난 회차 {batchCount, plural, other {#개}}에서",
};
