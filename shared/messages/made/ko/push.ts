// Made from ../../ko/push.json by `npm run messages`; change that instead.
export const pushTexts = {
  "push.acknowledge": "봤다고 표시",
  "push.done": "봤다고 표시함",
  "push.not-done": "지금은 표시하지 못함",
  "push.failed": "봤다고 표시하지 못했어요",
  "push.failed.says": "여기서 서버에 닿지 않아요. 눌러서 더미를 열고 다시 해 보세요.",
  "push.unreadable": "새 소식은 페이지를 열어 보세요.",
};
