// Made from ../../ja/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "まだ誰も中心部を測っていません。軸の長い温度計で測ってください。",
  "measure.probe-lost": "中心部のセンサーでは分かりません。軸の長い温度計で中心部を測ってください。",
  "measure.due": "{dueAtMs}までに中心部をもう一度測ってください",
  "measure.overdue": "いますぐ中心部を測ってください。期限は{dueAtMs}でした",
  "measure.quiet": "{duePart}。静かな間は1日2回で足ります。",
  "measure.not-known-yet": "{duePart}。1回の測定では、温まる速さは分かりません。",
  "measure.near-limit": "{duePart}。対応が必要な温度（{actC}）に近いです。",
  "measure.climbing": "{duePart}。対応が必要な温度（{actC}）に向かって温まっています。",
  "measure.over-limit": "{duePart}。対応が必要な温度（{actC}）を超えています。",
};
