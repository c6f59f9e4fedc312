// Made from ../../ko/phase.json by `npm run messages`; change that instead.
export const phaseTexts = {
  "phase.counts-as": "지금 상태: {phase, select, resting {쉬는 중} warming {데워지는 중} active {한창 발효 중} cooling {식는 중} settled {잠잠함} other {알 수 없음}}. 까닭: {reasonPart}.",
  "phase.reason.just-laid": "더미를 쌓은 뒤로 중심부가 오르는 것이 아직 보이지 않음",
  "phase.reason.heat-began": "중심부가 바깥 공기보다 뜨거워지기 시작함",
  "phase.reason.heat-faded": "발효하기 전에 첫 온기가 사라짐",
  "phase.reason.reached-working-heat": "중심부가 발효 온도에 이름",
  "phase.reason.fell-from-its-peak": "중심부가 최고점에서 뚜렷이 내려갔고 계속 내려감",
  "phase.reason.reheated": "중심부가 다시 오름",
  "phase.reason.back-near-air": "중심부가 바깥 공기와 {nearK} 안쪽까지 돌아와 그대로 있음",
  "phase.lost-culture-signs": "새로 난 흰 실과 달콤하거나 흙 같은 냄새는 살아 있을 수 있다는 표시예요. 냄새가 없거나 탄 냄새, 재처럼 마른 회색 얼룩, 암모니아나 썩은 내는 죽었을 수 있다는 표시예요.",
  "phase.past-heat.unjudged": "{position, select, core {중심부} top {윗부분} base {바닥} edge {가장자리} other {더미}} 온도가 {lossC} 이상으로 {lossH} 동안 이어졌고, 가장 높을 때 {peakC}였어요. 미생물이 죽었을 수 있고, 그 뒤로 아무도 냄새를 맡거나 살펴보지 않았어요.",
  "phase.past-heat.judged": "{position, select, core {중심부} top {윗부분} base {바닥} edge {가장자리} other {더미}} 온도가 {lossC} 이상으로 {lossH} 동안 이어졌고, 가장 높을 때 {peakC}였어요. 그 뒤로 누가 냄새를 맡거나 살펴보았어요.",
  "phase.past-heat.brief": "{position, select, core {중심부} top {윗부분} base {바닥} edge {가장자리} other {더미}} 온도가 {peakC}까지 올랐고, {lossC} 이상으로 {lossH} 동안 이어졌어요.",
  "phase.past-heat.hot": "{position, select, core {중심부} top {윗부분} base {바닥} edge {가장자리} other {더미}} 온도가 {actC} 이상으로 {actH} 동안 이어졌고, 가장 높을 때 {peakC}였어요.",
};
