/**
 * What is kept of an alarm beside its plain columns: the state machine as last left, and the words of the moment.
 */
import { z } from 'zod';
import { epochMsSchema } from './epoch.ts';
import type { Position } from './names.ts';
import { type AlarmState, alarmStateSchema, type Severity, severitySchema, type WarningKind } from './warning.ts';

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

/** One alarm, from being raised until it is normal again; identity while open is pile + position + kind. */
export interface AlarmRecord {
  readonly id: string;
  readonly pileId: string;
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly severity: Severity;
  readonly state: AlarmState;
  readonly raisedAtMs: number;
  readonly changedAtMs: number;
  readonly closedAtMs: number | null;
  /** The state machine as last left. */
  readonly machine: KeptAlarmMachine;
  /** Words of the moment it was raised or last grew worse. */
  readonly words: AlarmWords;
}

export interface AlarmStepRecord {
  readonly alarmId: string;
  readonly atMs: number;
  readonly from: AlarmState;
  readonly to: AlarmState;
  readonly arrow: string;
  readonly by: string | null;
  readonly note: string | null;
}
