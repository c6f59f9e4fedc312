// Made by `npm run messages`.
import { alarmTexts } from './pt-BR/alarm.ts';
import { auditTexts } from './pt-BR/audit.ts';
import { bandTexts } from './pt-BR/band.ts';
import { calendarTexts } from './pt-BR/calendar.ts';
import { cautionTexts } from './pt-BR/caution.ts';
import { conditionTexts } from './pt-BR/condition.ts';
import { deliveryTexts } from './pt-BR/delivery.ts';
import { entryTexts } from './pt-BR/entry.ts';
import { fieldTexts } from './pt-BR/field.ts';
import { handTexts } from './pt-BR/hand.ts';
import { healthTexts } from './pt-BR/health.ts';
import { hubTexts } from './pt-BR/hub.ts';
import { importTexts } from './pt-BR/import.ts';
import { labelTexts } from './pt-BR/label.ts';
import { laidTexts } from './pt-BR/laid.ts';
import { lineageTexts } from './pt-BR/lineage.ts';
import { linkTexts } from './pt-BR/link.ts';
import { mailTexts } from './pt-BR/mail.ts';
import { materialTexts } from './pt-BR/material.ts';
import { measureTexts } from './pt-BR/measure.ts';
import { noticeTexts } from './pt-BR/notice.ts';
import { originTexts } from './pt-BR/origin.ts';
import { passwordTexts } from './pt-BR/password.ts';
import { personTexts } from './pt-BR/person.ts';
import { phaseTexts } from './pt-BR/phase.ts';
import { plainTexts } from './pt-BR/plain.ts';
import { planTexts } from './pt-BR/plan.ts';
import { practiceTexts } from './pt-BR/practice.ts';
import { problemTexts } from './pt-BR/problem.ts';
import { pushTexts } from './pt-BR/push.ts';
import { quantityTexts } from './pt-BR/quantity.ts';
import { readinessTexts } from './pt-BR/readiness.ts';
import { recordTexts } from './pt-BR/record.ts';
import { refusalTexts } from './pt-BR/refusal.ts';
import { ruleTexts } from './pt-BR/rule.ts';
import { sayTexts } from './pt-BR/say.ts';
import { seasonTexts } from './pt-BR/season.ts';
import { squeezeTexts } from './pt-BR/squeeze.ts';
import { verdictTexts } from './pt-BR/verdict.ts';
import { warningsTexts } from './pt-BR/warnings.ts';
import { weatherTexts } from './pt-BR/weather.ts';
import { whyTexts } from './pt-BR/why.ts';

/** Every text of this language, by code, for pages; most take the topics that they show. */
export const ptBRTexts = {
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
