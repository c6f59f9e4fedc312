// Made from ../../ja/page-language.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageLanguageParams } from '../params/page-language.ts';

export const pageLanguageTexts: PageTexts<PageLanguageParams> = {
  "page-language.label": "言語",
  "page-language.as-browser": "ブラウザーの設定どおり",
  "page-language.hint": ["アカウントに保存され、メッセージもその言語で届きます。訳されていないものは",["fallbackName"],"です。"],
  "page-language.machine-made": "機械翻訳です。栽培する人はまだ読んでいません。",
};
