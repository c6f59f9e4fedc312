/** What a pile says, its numbers left aside: two that differ in nothing else are the same sentence. */

import { isStanding } from '../../../core/alarms/standing.ts';
import { sayCondition } from '../../../core/say/condition.ts';
import type { OpenAlarm } from '../../../core/session/alarm-registry.ts';
import type { Assessment } from '../../../core/session/assessment.ts';

export function sentenceWords(assessment: Assessment, open: Iterable<OpenAlarm>): string {
  const standing = [...open].map(({ record, suppressedBy }) => ({
    kind: record.kind,
    position: record.position,
    state: record.state,
    stands: isStanding(record.machine),
    suppressedBy,
    todo: record.words.todo,
  }));
  const { condition, next, tone } = sayCondition(assessment, standing);
  return JSON.stringify([condition, next, tone], (_key, value: unknown) =>
    typeof value === 'number' || isQuantity(value) ? 0 : value,
  );
}

/** A temperature or difference with its decimals. */
function isQuantity(value: unknown): boolean {
  return typeof value === 'object' && value !== null && 'decimals' in value;
}
