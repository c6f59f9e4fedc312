/**
 * How long each kind of warning must be seen before it is raised, and gone before it is cleared.
 *
 * A pile's time constant is hours, so the minutes of process plants would only chatter. The figures are our own
 * proposal: no published set for piles was found. Overheating 15-30 min on, 30-60 min off; the fire ladder waits for
 * nothing.
 */
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import type { WarningKind } from '../../shared/warning.ts';
import type { Delays } from './hold.ts';

export const alarmPolicies: Record<WarningKind, Delays> = {
  'self-heating': { onDelayMs: 0, offDelayMs: 2 * msPerHour },
  overheating: { onDelayMs: 20 * msPerMinute, offDelayMs: 45 * msPerMinute },
  // A person's word holds from when it is given until another is.
  'bad-smell': { onDelayMs: 0, offDelayMs: 0 },
  'wrong-growth': { onDelayMs: 0, offDelayMs: 0 },
  'hand-wet': { onDelayMs: 0, offDelayMs: 0 },
  'hand-dry': { onDelayMs: 0, offDelayMs: 0 },
  // The probe's next reading has been waited for already, where it comes soon.
  'heat-doubted': { onDelayMs: 0, offDelayMs: 0 },
  'overheating-soon': { onDelayMs: 20 * msPerMinute, offDelayMs: 2 * msPerHour },
  // Hours of heat come before it, and only a person ends it.
  'heat-damage': { onDelayMs: 0, offDelayMs: 0 },
  drying: { onDelayMs: msPerHour, offDelayMs: 2 * msPerHour },
  stalling: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
  chilled: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
  waterlogged: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
  uneven: { onDelayMs: 3 * msPerHour, offDelayMs: 3 * msPerHour },
  // The judge has already waited for about three of the probe's own intervals.
  'probe-silent': { onDelayMs: 0, offDelayMs: 0 },
  'probe-stuck': { onDelayMs: 0, offDelayMs: 30 * msPerMinute },
  'probe-out': { onDelayMs: 15 * msPerMinute, offDelayMs: 2 * msPerHour },
};

/** How far a value lies from its limit: well past it, past it, or so near that the probe's own error hides on which side. */
export type Nearness = 'clear' | 'past' | 'at';

/** What the probe's own error hides must be seen for so long [ms]; our own proposal. */
const atLimitMs = 30 * msPerMinute;

/** The delays of one finding: the clearer it is, the sooner it is raised; all are cleared alike. */
export function delaysOf(finding: { readonly kind: WarningKind; readonly nearness?: Nearness }): Delays {
  const { kind, nearness } = finding;
  return nearness === undefined ? alarmPolicies[kind] : delays[nearness][kind];
}

const delays: Record<Nearness, Record<WarningKind, Delays>> = {
  clear: raisedAfter(0),
  past: alarmPolicies,
  at: raisedAfter(atLimitMs),
};

function raisedAfter(onDelayMs: number): Record<WarningKind, Delays> {
  const kinds = Object.entries(alarmPolicies).map(([kind, policy]) => [kind, { ...policy, onDelayMs }]);
  return Object.fromEntries(kinds) as Record<WarningKind, Delays>;
}

/** What the maker of a common one-wire chip vouches for, ± [K] (data sheet, -10 to 85 °C). */
export const chipErrorK = 0.5;
/** Deadband of temperature limits: both sides of that error [K]. */
export const temperatureDeadbandK = 2 * chipErrorK;
