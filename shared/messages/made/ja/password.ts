// Made from ../../ja/password.json by `npm run messages`; change that instead.
export const passwordTexts = {
  "password.too-short": "パスワードは{leastCount, plural, other {#文字}}以上にしてください。単語を四つ並べるとよいです。",
  "password.too-long": "パスワードは{mostCount, plural, other {#文字}}以下にしてください。",
  "password.few-characters": "同じ文字の繰り返しが多すぎます。もっといろいろな文字を使ってください。",
  "password.repeats": "同じ並びが繰り返されています。繰り返しのないものにしてください。",
  "password.guessable": "推測されやすいパスワードです。よくある単語、名前、キーの並びでできています。自分の言葉を足してください。",
};
