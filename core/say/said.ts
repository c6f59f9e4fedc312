/** A pile's sentence and next step, as the API gives them. */
import type { Assessment } from '../session/assessment.ts';
import type { AlarmView } from './alarm-view.ts';
import { sayCondition } from './condition.ts';

export function saidOf(assessment: Assessment, alarms: readonly AlarmView[]) {
  const standing = alarms.map((alarm) => ({ ...alarm, todo: alarm.messages.todo }));
  const { condition, next, tone } = sayCondition(assessment, standing);
  return { messages: { condition, next }, tone };
}
