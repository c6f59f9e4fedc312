import { expect, test } from 'vitest';
import { acknowledgeAlarm, shelveAlarm, startAlarm, stepAlarm, takeOutOfService } from '../../../core/alarms/alarm.ts';
import { isStanding } from '../../../core/alarms/standing.ts';

const policy = { onDelayMs: 0, offDelayMs: 10 };
const raised = stepAlarm(startAlarm(0), 'present', 1, policy).next;
const passing = stepAlarm(raised, 'absent', 2, policy).next;
const over = stepAlarm(passing, 'absent', 20, policy).next;
const shelved = shelveAlarm(raised, 1_000, 2).next;

const rows: [string, ReturnType<typeof startAlarm>, boolean][] = [
  ['one never raised', startAlarm(0), false],
  ['one just raised', raised, true],
  ['one acknowledged', acknowledgeAlarm(raised, 2).next, true],
  ['one that waits to be sure that it is over', passing, true],
  ['one that is over and unacknowledged', over, false],
  ['one shelved', shelved, true],
  ['one shelved whose readings are missing', stepAlarm(shelved, 'missing', 50, policy).next, true],
  [
    'one shelved that has passed meanwhile',
    stepAlarm(stepAlarm(shelved, 'absent', 50, policy).next, 'absent', 60, policy).next,
    false,
  ],
  ['one taken out of service', takeOutOfService(raised, 2).next, true],
];
for (const [name, machine, stands] of rows) {
  test(`isStanding() of ${name}: ${stands}`, () => expect(isStanding(machine)).toBe(stands));
}
