import { toInstant } from '../../shared/contracts/time.ts';
import type { Assessment } from '../session/assessment.ts';
import { keepsPeopleAway } from '../warnings/self-heating.ts';
import type { AlarmView } from './alarm-view.ts';

/** When to measure by hand next; absent where a probe does, and while nobody may touch the pile. */
export function measureView({ measureNext }: Assessment, alarms: readonly AlarmView[]) {
  if (measureNext === null || alarms.some(({ stands, messages }) => stands && keepsPeopleAway(messages.todo)))
    return {};
  const { position, atMs, reason, says } = measureNext;
  return { measureNext: { position, at: toInstant(atMs), reason, messages: { says } } };
}
