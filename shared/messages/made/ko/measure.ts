// Made from ../../ko/measure.json by `npm run messages`; change that instead.
export const measureTexts = {
  "measure.never-measured": "아직 아무도 중심부를 재지 않았어요. 탐침이 긴 온도계로 재세요.",
  "measure.probe-lost": "중심부 센서로는 어떤지 알 수 없어요. 탐침이 긴 온도계로 중심부 온도를 재세요.",
  "measure.due": "{dueAtMs}까지 중심부 온도를 다시 재세요",
  "measure.overdue": "지금 중심부 온도를 재세요. {dueAtMs}까지 쟀어야 해요",
  "measure.quiet": "{duePart}. 조용한 동안은 하루에 두 번이면 돼요.",
  "measure.not-known-yet": "{duePart}. 한 번 재서는 얼마나 빨리 데워지는지 알 수 없어요.",
  "measure.near-limit": "{duePart}. 조치해야 하는 온도({actC})에 가까워요.",
  "measure.climbing": "{duePart}. 조치해야 하는 온도({actC}) 쪽으로 데워지고 있어요.",
  "measure.over-limit": "{duePart}. 조치해야 하는 온도({actC})를 넘었어요.",
};
