// Made by `npm run messages`.
import { alarmTexts } from './ja/alarm.ts';
import { auditTexts } from './ja/audit.ts';
import { bandTexts } from './ja/band.ts';
import { calendarTexts } from './ja/calendar.ts';
import { cautionTexts } from './ja/caution.ts';
import { conditionTexts } from './ja/condition.ts';
import { deliveryTexts } from './ja/delivery.ts';
import { entryTexts } from './ja/entry.ts';
import { fieldTexts } from './ja/field.ts';
import { handTexts } from './ja/hand.ts';
import { healthTexts } from './ja/health.ts';
import { importTexts } from './ja/import.ts';
import { labelTexts } from './ja/label.ts';
import { laidTexts } from './ja/laid.ts';
import { lineageTexts } from './ja/lineage.ts';
import { linkTexts } from './ja/link.ts';
import { mailTexts } from './ja/mail.ts';
import { materialTexts } from './ja/material.ts';
import { measureTexts } from './ja/measure.ts';
import { noticeTexts } from './ja/notice.ts';
import { originTexts } from './ja/origin.ts';
import { passwordTexts } from './ja/password.ts';
import { personTexts } from './ja/person.ts';
import { phaseTexts } from './ja/phase.ts';
import { plainTexts } from './ja/plain.ts';
import { planTexts } from './ja/plan.ts';
import { practiceTexts } from './ja/practice.ts';
import { problemTexts } from './ja/problem.ts';
import { pushTexts } from './ja/push.ts';
import { quantityTexts } from './ja/quantity.ts';
import { readinessTexts } from './ja/readiness.ts';
import { recordTexts } from './ja/record.ts';
import { refusalTexts } from './ja/refusal.ts';
import { ruleTexts } from './ja/rule.ts';
import { sayTexts } from './ja/say.ts';
import { seasonTexts } from './ja/season.ts';
import { squeezeTexts } from './ja/squeeze.ts';
import { verdictTexts } from './ja/verdict.ts';
import { warningsTexts } from './ja/warnings.ts';
import { weatherTexts } from './ja/weather.ts';
import { whyTexts } from './ja/why.ts';

/** Every text of this language, by code: for servers and tests. Pages take the topics that they show. */
export const jaTexts = {
  ...alarmTexts,
  ...auditTexts,
  ...bandTexts,
  ...calendarTexts,
  ...cautionTexts,
  ...conditionTexts,
  ...deliveryTexts,
  ...entryTexts,
  ...fieldTexts,
  ...handTexts,
  ...healthTexts,
  ...importTexts,
  ...labelTexts,
  ...laidTexts,
  ...lineageTexts,
  ...linkTexts,
  ...mailTexts,
  ...materialTexts,
  ...measureTexts,
  ...noticeTexts,
  ...originTexts,
  ...passwordTexts,
  ...personTexts,
  ...phaseTexts,
  ...plainTexts,
  ...planTexts,
  ...practiceTexts,
  ...problemTexts,
  ...pushTexts,
  ...quantityTexts,
  ...readinessTexts,
  ...recordTexts,
  ...refusalTexts,
  ...ruleTexts,
  ...sayTexts,
  ...seasonTexts,
  ...squeezeTexts,
  ...verdictTexts,
  ...warningsTexts,
  ...weatherTexts,
  ...whyTexts,
};
