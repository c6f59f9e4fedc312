/**
 * What is kept of an alarm beside its plain columns: the state machine as last left, and the words of the moment.
 */
import { z } from 'zod';
import { epochMsSchema } from './epoch.ts';
import { alarmStateSchema, severitySchema } from './warning.ts';

/** The same as core's conditions of a hold; the compiler compares them where a machine is taken up. */
const holdSchema = z.object({
  condition: z.enum(['unknown', 'clear', 'pending', 'raised', 'clearing']),
  sinceMs: epochMsSchema,
});

export const alarmMachineSchema = z.object({
  state: alarmStateSchema,
  sinceMs: epochMsSchema,
  hold: holdSchema,
  firstRaisedAtMs: epochMsSchema.nullable(),
  severity: severitySchema.nullable(),
  rung: z.number().int().min(1).optional(),
  shelvedUntilMs: epochMsSchema.nullable(),
});
export type KeptAlarmMachine = z.infer<typeof alarmMachineSchema>;

export const alarmWordsSchema = z.object({
  seen: z.string(),
  todo: z.string().default(''),
  byMs: epochMsSchema.nullable().default(null),
  caution: z.string().nullable().default(null),
  /** Who noted it and when, where it rests on a person's word. */
  noted: z.object({ atMs: epochMsSchema, by: z.string().nullable() }).optional(),
});
/** Words of the moment an alarm was raised or last looked at. */
export type AlarmWords = z.infer<typeof alarmWordsSchema>;
