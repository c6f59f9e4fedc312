// Made from ../../en/page-help-link.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageHelpLinkParams } from '../params/page-help-link.ts';

export const pageHelpLinkTexts: PageTexts<PageHelpLinkParams> = {
  "page-help-link.to": ["Help: ",["chapterText"]],
  "page-help-link.all": "all chapters",
  "page-help-link.key": "What colours, dots and marks mean",
  "page-help-link.chapter.first-steps": "First steps",
  "page-help-link.chapter.probes": "Thermometers and probes",
  "page-help-link.chapter.probe": "Build a probe",
  "page-help-link.chapter.squeeze": "Squeeze, smell and look",
  "page-help-link.chapter.signs": "Colours, dots and marks",
  "page-help-link.chapter.stages": "Stages and their words",
  "page-help-link.chapter.warnings": "Warnings, one by one",
  "page-help-link.chapter.notifications": "Alarms and notifications",
  "page-help-link.chapter.chart": "Reading the chart",
  "page-help-link.chapter.device": "Looking after probes",
  "page-help-link.chapter.cautions": "Cautions",
  "page-help-link.chapter.questions": "Questions and faults",
};
