// Made from ../../ja/push.json by `npm run messages`; change that instead.
export const pushTexts = {
  "push.acknowledge": "見ました",
  "push.done": "「見ました」と答えました",
  "push.not-done": "いまは答えられませんでした",
  "push.failed": "「見ました」と答えられませんでした",
  "push.failed.says": "ここからサーバーにつながりません。押して山を開き、もう一度試してください。",
  "push.unreadable": "ページを開いて、新しいことを見てください。",
};
