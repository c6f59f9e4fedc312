// Made by `npm run messages`.
import { alarmTexts } from './ko/alarm.ts';
import { auditTexts } from './ko/audit.ts';
import { bandTexts } from './ko/band.ts';
import { calendarTexts } from './ko/calendar.ts';
import { cautionTexts } from './ko/caution.ts';
import { conditionTexts } from './ko/condition.ts';
import { deliveryTexts } from './ko/delivery.ts';
import { entryTexts } from './ko/entry.ts';
import { fieldTexts } from './ko/field.ts';
import { handTexts } from './ko/hand.ts';
import { healthTexts } from './ko/health.ts';
import { importTexts } from './ko/import.ts';
import { labelTexts } from './ko/label.ts';
import { laidTexts } from './ko/laid.ts';
import { lineageTexts } from './ko/lineage.ts';
import { linkTexts } from './ko/link.ts';
import { mailTexts } from './ko/mail.ts';
import { materialTexts } from './ko/material.ts';
import { measureTexts } from './ko/measure.ts';
import { noticeTexts } from './ko/notice.ts';
import { originTexts } from './ko/origin.ts';
import { passwordTexts } from './ko/password.ts';
import { personTexts } from './ko/person.ts';
import { phaseTexts } from './ko/phase.ts';
import { plainTexts } from './ko/plain.ts';
import { planTexts } from './ko/plan.ts';
import { practiceTexts } from './ko/practice.ts';
import { problemTexts } from './ko/problem.ts';
import { pushTexts } from './ko/push.ts';
import { quantityTexts } from './ko/quantity.ts';
import { readinessTexts } from './ko/readiness.ts';
import { recordTexts } from './ko/record.ts';
import { refusalTexts } from './ko/refusal.ts';
import { ruleTexts } from './ko/rule.ts';
import { sayTexts } from './ko/say.ts';
import { seasonTexts } from './ko/season.ts';
import { squeezeTexts } from './ko/squeeze.ts';
import { verdictTexts } from './ko/verdict.ts';
import { warningsTexts } from './ko/warnings.ts';
import { weatherTexts } from './ko/weather.ts';
import { whyTexts } from './ko/why.ts';

/** Every text of this language, by code: for servers and tests. Pages take the topics that they show. */
export const koTexts = {
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
