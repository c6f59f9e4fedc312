import type { WarningKind } from '../../shared/warning.ts';

const heatTodo: Partial<Record<WarningKind, string>> = {
  'self-heating': 'Leave it as it lies; look again within the hour, and keep water and a helper at hand.',
  overheating: 'Leave it as it is and look again in an hour.',
  'overheating-soon': 'Look again within the hour.',
};

/** What to do while an alarm stands whose cause is seen no longer: what it asked for before would now do harm, or nothing. */
export function easedTodo(kind: WarningKind): string {
  return heatTodo[kind] ?? 'Do no more for it now: it is seen no longer, and this ends by itself if that lasts.';
}
