/** A pile's sentence and next step as the API gives them: in words, and as the messages that these are made from. */
import type { AlarmSummary } from '../../shared/contracts/piles.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { verbatim } from '../../shared/messages/message.ts';
import type { Assessment } from '../session/assessment.ts';
import { sayCondition } from './condition.ts';

export function saidOf(assessment: Assessment, alarms: readonly AlarmSummary[]) {
  const standing = alarms.map((alarm) => ({ ...alarm, todo: alarm.messages?.todo ?? verbatim(alarm.todo) }));
  const { condition, next, tone } = sayCondition(assessment, standing);
  return { ...inWords({ condition, next }, assessment.atMs), tone };
}
