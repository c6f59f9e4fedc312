/** When to look, when to turn, when it may be ready. */
import { z } from 'zod';
import { stageSchema } from '../../names.ts';
import { instantInputSchema, instantSchema } from '../time.ts';
import { airC } from './plan-fields.ts';
import { messagesOf, planUnitsSchema } from './written.ts';

const plannedDateKinds = ['check', 'turn', 'ready'] as const;
export const plannedDateSchema = z.object({
  kind: z.enum(plannedDateKinds),
  at: instantSchema,
  /** End of a window; null for a single moment. */
  until: instantSchema.nullable(),
  says: z.string(),
  origin: z.string(),
  messages: messagesOf('says', 'origin'),
});
export type PlannedDateView = z.infer<typeof plannedDateSchema>;

export const datesAskSchema = z.object({
  startAt: instantInputSchema,
  stage: stageSchema,
  airC: airC.optional(),
  units: planUnitsSchema,
});
export type DatesAsk = z.output<typeof datesAskSchema>;

export const datesAnswerSchema = z.object({ dates: z.array(plannedDateSchema) });
