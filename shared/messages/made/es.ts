// Made by `npm run messages`.
import { alarmTexts } from './es/alarm.ts';
import { auditTexts } from './es/audit.ts';
import { bandTexts } from './es/band.ts';
import { calendarTexts } from './es/calendar.ts';
import { cautionTexts } from './es/caution.ts';
import { conditionTexts } from './es/condition.ts';
import { deliveryTexts } from './es/delivery.ts';
import { entryTexts } from './es/entry.ts';
import { fieldTexts } from './es/field.ts';
import { handTexts } from './es/hand.ts';
import { healthTexts } from './es/health.ts';
import { hubTexts } from './es/hub.ts';
import { importTexts } from './es/import.ts';
import { labelTexts } from './es/label.ts';
import { laidTexts } from './es/laid.ts';
import { lineageTexts } from './es/lineage.ts';
import { linkTexts } from './es/link.ts';
import { mailTexts } from './es/mail.ts';
import { materialTexts } from './es/material.ts';
import { measureTexts } from './es/measure.ts';
import { noticeTexts } from './es/notice.ts';
import { originTexts } from './es/origin.ts';
import { passwordTexts } from './es/password.ts';
import { personTexts } from './es/person.ts';
import { phaseTexts } from './es/phase.ts';
import { plainTexts } from './es/plain.ts';
import { planTexts } from './es/plan.ts';
import { practiceTexts } from './es/practice.ts';
import { problemTexts } from './es/problem.ts';
import { pushTexts } from './es/push.ts';
import { quantityTexts } from './es/quantity.ts';
import { readinessTexts } from './es/readiness.ts';
import { recordTexts } from './es/record.ts';
import { refusalTexts } from './es/refusal.ts';
import { ruleTexts } from './es/rule.ts';
import { sayTexts } from './es/say.ts';
import { seasonTexts } from './es/season.ts';
import { squeezeTexts } from './es/squeeze.ts';
import { verdictTexts } from './es/verdict.ts';
import { warningsTexts } from './es/warnings.ts';
import { weatherTexts } from './es/weather.ts';
import { whyTexts } from './es/why.ts';

/** Every text of this language, by code, for pages; most take the topics that they show. */
export const esTexts = {
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
  ...hubTexts,
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
