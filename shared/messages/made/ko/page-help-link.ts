// Made from ../../ko/page-help-link.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageHelpLinkParams } from '../params/page-help-link.ts';

export const pageHelpLinkTexts: PageTexts<PageHelpLinkParams> = {
  "page-help-link.to": ["도움말: ",["chapterText"]],
  "page-help-link.all": "모든 장",
  "page-help-link.key": "색, 점, 표시의 뜻",
  "page-help-link.chapter.first-steps": "첫걸음",
  "page-help-link.chapter.probes": "온도계와 센서",
  "page-help-link.chapter.probe": "센서 만들기",
  "page-help-link.chapter.squeeze": "쥐어 보고, 냄새 맡고, 살펴보기",
  "page-help-link.chapter.signs": "색, 점, 표시",
  "page-help-link.chapter.stages": "단계와 쓰는 말",
  "page-help-link.chapter.warnings": "경고 하나하나",
  "page-help-link.chapter.notifications": "경보와 알림",
  "page-help-link.chapter.chart": "그래프 읽기",
  "page-help-link.chapter.device": "센서 돌보기",
  "page-help-link.chapter.cautions": "주의할 점",
  "page-help-link.chapter.questions": "질문과 고장",
};
