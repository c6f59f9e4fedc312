/**
 * Whether an alarm stands: what it is about holds, as far as is known. Shelving and taking out of service keep people from being
 * notified and change nothing of that, so whatever is said of a pile asks `isStanding`, never the state alone.
 */
import type { AlarmState } from '../../shared/warning.ts';
import type { AlarmMachine } from './alarm.ts';
import { stands } from './hold.ts';

export function isStanding({ state, hold }: Pick<AlarmMachine, 'state' | 'hold'>): boolean {
  return state !== 'normal' && stands(hold.condition);
}

/** It stands, and what it is about is seen no longer: it waits to be sure. */
export function isEasing(machine: Pick<AlarmMachine, 'state' | 'hold'>): boolean {
  return isStanding(machine) && machine.hold.condition === 'clearing';
}

/** A person wants no notification of it now. */
export function isSilenced({ state }: { readonly state: AlarmState }): boolean {
  return state === 'shelved' || state === 'out-of-service';
}

/** Stands for itself: no other warning explains it. */
export function speaks(alarm: { readonly stands: boolean; readonly suppressedBy: string | null }): boolean {
  return alarm.stands && alarm.suppressedBy === null;
}

/** Nobody has acknowledged it, whether it still stands or not. */
export function isUnacknowledged({ state }: { readonly state: AlarmState }): boolean {
  return state === 'unacknowledged' || state === 'returned-unacknowledged';
}

/** Asks a person to acknowledge it now. */
export function asksForSomebody(alarm: { readonly state: AlarmState; readonly suppressedBy: string | null }): boolean {
  return alarm.state === 'unacknowledged' && alarm.suppressedBy === null;
}
