/** Alarms, what a person may do with them, and every step they took. */
import { z } from 'zod';
import { alarmStateSchema } from '../warning.ts';
import { alarmSummarySchema } from './piles.ts';
import { instantSchema } from './time.ts';

const alarmStepSchema = z.object({
  at: instantSchema,
  from: alarmStateSchema,
  to: alarmStateSchema,
  /** Name of the arrow taken. */
  arrow: z.string(),
  /** Who did it, when a person did. */
  by: z.string().nullable(),
  note: z.string().nullable(),
});

export const alarmDetailSchema = alarmSummarySchema.extend({
  pileId: z.string(),
  steps: z.array(alarmStepSchema),
});
export type AlarmDetail = z.infer<typeof alarmDetailSchema>;

export const alarmsAnswerSchema = z.object({ alarms: z.array(alarmDetailSchema) });

export const alarmActSchema = z.object({
  by: z.string().trim().min(1).max(80).optional(),
  note: z.string().trim().max(500).optional(),
});
export const shelveSchema = alarmActSchema.extend({
  minutes: z
    .number()
    .int()
    .min(1)
    .max(7 * 24 * 60),
});
