/**
 * Changes of a pile that the journal has not taken yet: one change of those that follow each other.
 */
import type { WatchChange } from '../../shared/store/journal.ts';

export const nothingOwed: WatchChange = { alarms: [], steps: [], watch: null };

/** The newest of each alarm, every step, every notice. */
export function together(first: WatchChange, then: WatchChange): WatchChange {
  if (first === nothingOwed) return then;
  const alarms = new Map([...first.alarms, ...then.alarms].map((alarm) => [alarm.id, alarm]));
  return {
    alarms: [...alarms.values()],
    steps: [...first.steps, ...then.steps],
    watch: then.watch ?? first.watch,
    notices: [...(first.notices ?? []), ...(then.notices ?? [])],
  };
}

export function isEmpty({ alarms, steps, watch, notices }: WatchChange): boolean {
  return alarms.length === 0 && steps.length === 0 && watch === null && (notices ?? []).length === 0;
}
