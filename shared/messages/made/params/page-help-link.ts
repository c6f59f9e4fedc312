// Made from ../../en/page-help-link.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageHelpLinkParams {
  'page-help-link.to': { readonly chapterText: string };
  'page-help-link.all': NoParams;
  'page-help-link.key': NoParams;
  'page-help-link.chapter.first-steps': NoParams;
  'page-help-link.chapter.probes': NoParams;
  'page-help-link.chapter.probe': NoParams;
  'page-help-link.chapter.squeeze': NoParams;
  'page-help-link.chapter.signs': NoParams;
  'page-help-link.chapter.stages': NoParams;
  'page-help-link.chapter.warnings': NoParams;
  'page-help-link.chapter.notifications': NoParams;
  'page-help-link.chapter.chart': NoParams;
  'page-help-link.chapter.device': NoParams;
  'page-help-link.chapter.cautions': NoParams;
  'page-help-link.chapter.questions': NoParams;
}
