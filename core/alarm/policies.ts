/**
 * core/alarm/policies.ts: how long each kind of warning must be seen before it is raised, and gone before it is cleared.
 *
 * Takes:  nothing.
 * Gives:  one policy per kind, and the deadbands of its limits.
 *
 * A pile's time constant is hours, so the minutes of process plants would only chatter. The figures are our own
 * proposal: no published set for piles was found. Overheating 15-30 min on, 30-60 min off; the fire ladder waits for nothing.
 */
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import type { WarningKind } from '../../shared/warning.ts';
import type { Delays } from './hold.ts';

export const alarmPolicies: Record<WarningKind, Delays> = {
  'self-heating': { onDelayMs: 0, offDelayMs: 2 * msPerHour },
  overheating: { onDelayMs: 20 * msPerMinute, offDelayMs: 45 * msPerMinute },
  'overheating-soon': { onDelayMs: 20 * msPerMinute, offDelayMs: 2 * msPerHour },
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

/** The delays of one finding: what is clear of its limit is raised at once, and cleared as any other. */
export function delaysOf({ kind, atOnce = false }: { readonly kind: WarningKind; readonly atOnce?: boolean }): Delays {
  return atOnce ? raisedAtOnce[kind] : alarmPolicies[kind];
}

const raisedAtOnce = Object.fromEntries(
  Object.entries(alarmPolicies).map(([kind, delays]) => [kind, { ...delays, onDelayMs: 0 }]),
) as Record<WarningKind, Delays>;

/** Deadband of temperature limits [K]: twice the ±0.5 °C of a common one-wire chip (maker's data sheet). */
export const temperatureDeadbandK = 1;
