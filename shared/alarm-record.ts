/**
 * What is kept of an alarm beside its plain columns: the state machine as last left, and what was said of the moment.
 */
import { z } from 'zod';
import { epochMsSchema } from './epoch.ts';
import { keptMessageSchema, verbatim } from './messages/message.ts';
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
  seen: keptMessageSchema,
  todo: keptMessageSchema.default(verbatim('')),
  byMs: epochMsSchema.nullable().default(null),
  caution: keptMessageSchema.nullable().default(null),
  /** Who noted it and when, where it rests on a person's word. */
  noted: z.object({ atMs: epochMsSchema, by: z.string().nullable() }).optional(),
});
/** What is said of it, of the moment it was raised or last seen. Rows of before messages had codes say what they said. */
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
