// Made from ../../ja/verdict.json by `npm run messages`; change that instead.
export const verdictTexts = {
  "verdict.why.smelt-good": "良いにおいがした",
  "verdict.why.grew-white": "全体に白く広がった",
  "verdict.why.kept-warm": "期待どおりに温まった",
  "verdict.why.too-hot": "熱くなりすぎた",
  "verdict.why.too-cool": "十分に温まらなかった",
  "verdict.why.too-wet": "湿りすぎだった",
  "verdict.why.too-dry": "乾きすぎだった",
  "verdict.why.smelt-bad": "悪いにおいがした",
  "verdict.why.other-growth": "白以外のものが生えた",
  "verdict.why.pests": "虫などが入った",
  "verdict.why.uneven": "一部だけ発酵した",
  "verdict.seen.peak": "中心部は{peakC}に達しました。",
  "verdict.seen.peak-low": "中心部は最高でも{peakC}でした。{comfortMinC}に達するものです。",
  "verdict.seen.comfort": "中心部が{comfortMinC}から{comfortMaxC}の間にあったのは、測った{measuredH}のうち{comfortH}です。",
  "verdict.seen.warned": "警告が{stoodH}そう示しました。",
  "verdict.seen.noted": "書かれたこと：{entryPart}。",
};
