// Made from ../../ja/mail.json by `npm run messages`; change that instead.
export const mailTexts = {
  "mail.foot": "センサーだけで、山ができ上がった、安全だと言うことは決してありません。これらのメッセージは防火設備ではありません。",
  "mail.seen-it": "見ました",
  "mail.seen-it-by-address": "見ました（ボタンが一つあるページが開きます）：",
  "mail.look": "見る",
  "mail.look-by-address": "見る：",
};
