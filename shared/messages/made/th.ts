// Made by `npm run messages`.
import { alarmTexts } from './th/alarm.ts';
import { auditTexts } from './th/audit.ts';
import { bandTexts } from './th/band.ts';
import { calendarTexts } from './th/calendar.ts';
import { cautionTexts } from './th/caution.ts';
import { conditionTexts } from './th/condition.ts';
import { deliveryTexts } from './th/delivery.ts';
import { entryTexts } from './th/entry.ts';
import { fieldTexts } from './th/field.ts';
import { handTexts } from './th/hand.ts';
import { healthTexts } from './th/health.ts';
import { importTexts } from './th/import.ts';
import { labelTexts } from './th/label.ts';
import { laidTexts } from './th/laid.ts';
import { lineageTexts } from './th/lineage.ts';
import { linkTexts } from './th/link.ts';
import { mailTexts } from './th/mail.ts';
import { materialTexts } from './th/material.ts';
import { measureTexts } from './th/measure.ts';
import { noticeTexts } from './th/notice.ts';
import { originTexts } from './th/origin.ts';
import { passwordTexts } from './th/password.ts';
import { personTexts } from './th/person.ts';
import { phaseTexts } from './th/phase.ts';
import { plainTexts } from './th/plain.ts';
import { planTexts } from './th/plan.ts';
import { practiceTexts } from './th/practice.ts';
import { problemTexts } from './th/problem.ts';
import { pushTexts } from './th/push.ts';
import { quantityTexts } from './th/quantity.ts';
import { readinessTexts } from './th/readiness.ts';
import { recordTexts } from './th/record.ts';
import { refusalTexts } from './th/refusal.ts';
import { ruleTexts } from './th/rule.ts';
import { sayTexts } from './th/say.ts';
import { seasonTexts } from './th/season.ts';
import { squeezeTexts } from './th/squeeze.ts';
import { verdictTexts } from './th/verdict.ts';
import { warningsTexts } from './th/warnings.ts';
import { weatherTexts } from './th/weather.ts';
import { whyTexts } from './th/why.ts';

/** Every text of this language, by code: for servers and tests. Pages take the topics that they show. */
export const thTexts = {
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
