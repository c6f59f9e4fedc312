// Made by `npm run messages`.
import { alarmTexts } from './en/alarm.ts';
import { auditTexts } from './en/audit.ts';
import { bandTexts } from './en/band.ts';
import { calendarTexts } from './en/calendar.ts';
import { cautionTexts } from './en/caution.ts';
import { conditionTexts } from './en/condition.ts';
import { deliveryTexts } from './en/delivery.ts';
import { entryTexts } from './en/entry.ts';
import { fieldTexts } from './en/field.ts';
import { handTexts } from './en/hand.ts';
import { healthTexts } from './en/health.ts';
import { hubTexts } from './en/hub.ts';
import { importTexts } from './en/import.ts';
import { labelTexts } from './en/label.ts';
import { laidTexts } from './en/laid.ts';
import { lineageTexts } from './en/lineage.ts';
import { linkTexts } from './en/link.ts';
import { mailTexts } from './en/mail.ts';
import { materialTexts } from './en/material.ts';
import { meaningTexts } from './en/meaning.ts';
import { measureTexts } from './en/measure.ts';
import { noticeTexts } from './en/notice.ts';
import { originTexts } from './en/origin.ts';
import { passwordTexts } from './en/password.ts';
import { personTexts } from './en/person.ts';
import { phaseTexts } from './en/phase.ts';
import { plainTexts } from './en/plain.ts';
import { planTexts } from './en/plan.ts';
import { practiceTexts } from './en/practice.ts';
import { problemTexts } from './en/problem.ts';
import { pushTexts } from './en/push.ts';
import { quantityTexts } from './en/quantity.ts';
import { readinessTexts } from './en/readiness.ts';
import { recordTexts } from './en/record.ts';
import { refusalTexts } from './en/refusal.ts';
import { ruleTexts } from './en/rule.ts';
import { sayTexts } from './en/say.ts';
import { seasonTexts } from './en/season.ts';
import { squeezeTexts } from './en/squeeze.ts';
import { verdictTexts } from './en/verdict.ts';
import { warningsTexts } from './en/warnings.ts';
import { weatherTexts } from './en/weather.ts';
import { whyTexts } from './en/why.ts';

/** Every text that is found, by code, for pages; most take the topics that they show. */
export const enTexts = {
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
  ...meaningTexts,
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
