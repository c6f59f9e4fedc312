/** Which stretch of time the charts show. */
import { msPerDay, msPerMinute } from '../../../../shared/units.ts';

export const spanChoices = ['day', 'three-days', 'batch', 'custom'] as const;
export type SpanChoice = (typeof spanChoices)[number];

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

/** @returns The span, or what is wrong with it: both times are wanted, the end after the beginning. */
export function customSpan(fromMs: number | undefined, toMs: number | undefined): TimeSpan | 'both' | 'order' {
  if (fromMs === undefined || toMs === undefined) return 'both';
  if (toMs <= fromMs) return 'order';
  return { fromMs, toMs };
}
