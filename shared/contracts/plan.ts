/** What a grower works out before a heap is laid: starter, water, mix, dates. */
export { type DatesAsk, datesAnswerSchema, datesAskSchema, type PlannedDateView } from './plan/dates.ts';
export {
  type DilutionAnswer,
  type DilutionAsk,
  type DilutionConvention,
  type DilutionFigures,
  dilutionAnswerSchema,
  dilutionAskSchema,
} from './plan/dilution.ts';
export { type MixAnswer, type MixAsk, type MixFigures, mixAnswerSchema, mixAskSchema } from './plan/mix.ts';
export { type WaterAnswer, type WaterAsk, type WaterFigures, waterAnswerSchema, waterAskSchema } from './plan/water.ts';
export type { PlanTone, PlanUnits, WrittenView } from './plan/written.ts';
