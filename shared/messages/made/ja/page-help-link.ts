// Made from ../../ja/page-help-link.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageHelpLinkParams } from '../params/page-help-link.ts';

export const pageHelpLinkTexts: PageTexts<PageHelpLinkParams> = {
  "page-help-link.to": ["ヘルプ：",["chapterText"]],
  "page-help-link.all": "すべての章",
  "page-help-link.key": "色、点、印の意味",
  "page-help-link.chapter.first-steps": "最初に",
  "page-help-link.chapter.probes": "温度計とセンサー",
  "page-help-link.chapter.probe": "センサーを作る",
  "page-help-link.chapter.squeeze": "握る、かぐ、見る",
  "page-help-link.chapter.signs": "色、点、印",
  "page-help-link.chapter.stages": "段階と言葉",
  "page-help-link.chapter.warnings": "警告を一つずつ",
  "page-help-link.chapter.notifications": "警報と通知",
  "page-help-link.chapter.chart": "グラフの読み方",
  "page-help-link.chapter.device": "センサーの手入れ",
  "page-help-link.chapter.cautions": "気をつけること",
  "page-help-link.chapter.questions": "質問と故障",
};
