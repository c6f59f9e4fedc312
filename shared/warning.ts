/**
 * The words for what can be wrong with a pile and how an alarm stands.
 *
 * Evidence is present, absent or missing; missing never clears anything. Alarm states are the words of ANSI/ISA-18.2
 * and IEC 62682.
 */
import { z } from 'zod';

/** Bad signs that a person noted with hand, nose or eyes. */
export const handKinds = ['wrong-growth', 'bad-smell', 'hand-wet', 'hand-dry'] as const;
export type HandKind = (typeof handKinds)[number];

/**
 * Gravest first. This is the one order in which a pile speaks of its warnings, and its page, home and messages list them: what
 * may hurt people, what kills the culture within hours, what hides both, what harms within a day, what only makes it worse.
 */
export const warningKinds = [
  'self-heating',
  'overheating',
  'heat-doubted',
  ...handKinds,
  'probe-silent',
  'probe-stuck',
  'probe-out',
  'overheating-soon',
  'heat-damage',
  'drying',
  'waterlogged',
  'stalling',
  'chilled',
  'uneven',
] as const;
export const warningKindSchema = z.enum(warningKinds);
export type WarningKind = z.infer<typeof warningKindSchema>;

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
