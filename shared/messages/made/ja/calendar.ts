// Made from ../../ja/calendar.json by `npm run messages`; change that instead.
export const calendarTexts = {
  "calendar.turn": "切り返し：{pileName}",
  "calendar.check": "確認：{pileName}",
  "calendar.ready": "でき上がりそう：{pileName}",
  "calendar.called-off": "いまはしない、危険な発熱：{pileName}",
  "calendar.yours": "このアドレスはあなたのものです。更新するまで、知っている人は誰でも日付を読めます。",
  "calendar.yours-here": "このアドレスはあなたのもので、この機械でだけ開きます。BRANHEARTH_PUBLIC_URLに、スマートフォンからつながるアドレスを設定してください。更新するまで、知っている人は誰でも日付を読めます。",
};
