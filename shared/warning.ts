/**
 * The words for what can be wrong with a pile and how an alarm stands.
 *
 * Evidence is present, absent or missing; missing never clears anything. Alarm states are the words of ANSI/ISA-18.2
 * and IEC 62682.
 */
import { z } from 'zod';
import { type ConditionKind, conditionKinds } from './conditions/kinds.ts';

export { type HandKind, handKinds } from './conditions/kinds.ts';

/** What can be wrong with a pile is declared in `conditions/conditions.ts`, gravest first. */
export const warningKinds = conditionKinds;
export const warningKindSchema = z.enum(warningKinds);
export type WarningKind = ConditionKind;

/** From "good to know" to "people may be hurt". */
export const severities = ['notice', 'warning', 'urgent', 'danger'] as const;
export const severitySchema = z.enum(severities);
export type Severity = z.infer<typeof severitySchema>;

export const evidences = ['present', 'absent', 'missing'] as const;
export type Evidence = (typeof evidences)[number];

export const alarmStates = [
  'normal',
  'unacknowledged',
  'acknowledged',
  'returned-unacknowledged',
  'shelved',
  'out-of-service',
] as const;
export const alarmStateSchema = z.enum(alarmStates);
export type AlarmState = z.infer<typeof alarmStateSchema>;

/** How a batch moves through its heat. */
const phases = ['resting', 'warming', 'active', 'cooling', 'settled'] as const;
export const phaseSchema = z.enum(phases);
export type Phase = z.infer<typeof phaseSchema>;
