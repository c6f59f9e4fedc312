// Made from ../../ja/phase.json by `npm run messages`; change that instead.
export const phaseTexts = {
  "phase.counts-as": "{phase, select, resting {休止中} warming {昇温中} active {活発に発酵中} cooling {冷却中} settled {落ち着いた} other {不明}}とみなします。{reasonPart}。",
  "phase.reason.just-laid": "仕込まれて、中心部の上昇がまだ見られないためです",
  "phase.reason.heat-began": "中心部が外気より上がり始めたためです",
  "phase.reason.heat-faded": "発酵する前に最初の温かさが引いたためです",
  "phase.reason.reached-working-heat": "中心部が発酵の温度に達したためです",
  "phase.reason.fell-from-its-peak": "中心部が最高からはっきり下がり、下がり続けているためです",
  "phase.reason.reheated": "中心部がまた上がったためです",
  "phase.reason.back-near-air": "中心部が外気との差{nearK}以内に戻り、そのままだったためです",
  "phase.lost-culture-signs": "新しい白い菌糸と、甘いまたは土のにおいは良いしるしです。においがない、こげたにおい、灰のように乾いた灰色の部分、アンモニア、腐ったにおいは悪いしるしです。",
  "phase.past-heat.unjudged": "{position, select, base {底部} core {中心部} edge {端} top {上部} other {山}}は{lossC}以上が{lossH}続き、最高{peakC}でした。微生物は失われたかもしれず、その後まだ誰もにおいや見た目を確かめていません。",
  "phase.past-heat.judged": "{position, select, base {底部} core {中心部} edge {端} top {上部} other {山}}は{lossC}以上が{lossH}続き、最高{peakC}でした。その後、誰かがにおいか見た目を確かめました。",
  "phase.past-heat.brief": "{position, select, base {底部} core {中心部} edge {端} top {上部} other {山}}は{peakC}まで上がり、{lossC}以上が{lossH}ありました。",
  "phase.past-heat.hot": "{position, select, base {底部} core {中心部} edge {端} top {上部} other {山}}は{actC}以上が{actH}続き、最高{peakC}でした。",
};
