/** Which stretch of time the charts show. */
import { msPerDay, msPerMinute } from '../../../../shared/units.ts';

export const spanChoices = [
  ['day', 'Last day'],
  ['three-days', '3 days'],
  ['batch', 'Batch'],
  ['custom', 'Choose…'],
] as const;
export type SpanChoice = (typeof spanChoices)[number][0];

export interface TimeSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

export function spanOf(choice: Exclude<SpanChoice, 'custom'>, startedAtMs: number | null, nowMs: number): TimeSpan {
  const back = { day: msPerDay, 'three-days': 3 * msPerDay, batch: 30 * msPerDay }[choice];
  if (choice !== 'batch' || startedAtMs === null) return { fromMs: nowMs - back, toMs: nowMs };
  // A batch just laid still needs an axis with a length.
  return { fromMs: Math.min(startedAtMs, nowMs - 10 * msPerMinute), toMs: nowMs };
}

export function customSpan(fromMs: number | undefined, toMs: number | undefined): TimeSpan | string {
  if (fromMs === undefined || toMs === undefined) return 'Give both times';
  if (toMs <= fromMs) return 'The end must come after the beginning';
  return { fromMs, toMs };
}
