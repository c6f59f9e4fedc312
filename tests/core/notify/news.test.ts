import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type AlarmMachine, acknowledgeAlarm, shelveAlarm, startAlarm, stepAlarm } from '../../../core/alarms/alarm.ts';
import { newsOf, reminderOf } from '../../../core/notify/news.ts';
import type { NotifyReason } from '../../../shared/notifications.ts';
import { type AlarmState, alarmStates, evidences, severities } from '../../../shared/warning.ts';

const rows: [AlarmState, AlarmState, string, boolean, NotifyReason][] = [
  // from                    to                         arrow                        suppressed answer
  ['normal', 'unacknowledged', 'raised', false, 'first-raise'],
  ['normal', 'unacknowledged', 'raised', true, 'nothing-new'],
  ['returned-unacknowledged', 'unacknowledged', 'raised-again', false, 'first-raise'],
  ['unacknowledged', 'unacknowledged', 'still-present', false, 'got-worse'],
  ['acknowledged', 'unacknowledged', 'got-worse', false, 'got-worse'],
  ['acknowledged', 'unacknowledged', 'got-worse', true, 'nothing-new'],
  ['shelved', 'unacknowledged', 'shelf-ended-still-present', false, 'reminder-due'],
  ['shelved', 'unacknowledged', 'unshelved-still-present', false, 'nothing-new'],
  ['out-of-service', 'unacknowledged', 'returned-to-service-still-present', false, 'nothing-new'],
  ['unacknowledged', 'acknowledged', 'acknowledged', false, 'nothing-new'],
  ['unacknowledged', 'returned-unacknowledged', 'returned', false, 'cleared'],
  ['acknowledged', 'normal', 'cleared', false, 'cleared'],
  ['shelved', 'normal', 'shelf-ended-clear', false, 'cleared'],
  ['shelved', 'normal', 'unshelved-clear', false, 'nothing-new'],
  ['returned-unacknowledged', 'normal', 'acknowledged-after-return', false, 'nothing-new'],
  ['unacknowledged', 'shelved', 'shelved', false, 'nothing-new'],
  ['unacknowledged', 'out-of-service', 'taken-out-of-service', false, 'nothing-new'],
  ['unacknowledged', 'normal', 'batch-finished', false, 'nothing-new'],
  ['acknowledged', 'normal', 'batch-finished', false, 'nothing-new'],
];

for (const [from, to, arrow, suppressed, answer] of rows) {
  test(`newsOf() from ${from} to ${to} by ${arrow}${suppressed ? ', suppressed' : ''}: ${answer}`, () => {
    expect(newsOf({ from, to, arrow }, suppressed)).toBe(answer);
  });
}

describe('newsOf() over the life of any alarm', () => {
  const mutation = fc.oneof(
    fc.record({
      kind: fc.constant('look' as const),
      evidence: fc.constantFrom(...evidences),
      severity: fc.constantFrom(...severities),
    }),
    fc.record({ kind: fc.constantFrom('acknowledge' as const, 'shelve' as const) }),
  );

  test('never says that it is over unless people were told, since it was last over, that it stands', () => {
    fc.assert(
      fc.property(fc.array(mutation, { maxLength: 60 }), (mutations) => {
        let machine: AlarmMachine = startAlarm(0);
        let nowMs = 0;
        let notified = false;
        for (const one of mutations) {
          nowMs += 30 * 60_000;
          const before = machine;
          const { next, arrow } =
            one.kind === 'look'
              ? stepAlarm(
                  machine,
                  one.evidence,
                  nowMs,
                  { onDelayMs: 0, offDelayMs: 60 * 60_000 },
                  { severity: one.severity },
                )
              : one.kind === 'acknowledge'
                ? acknowledgeAlarm(machine, nowMs)
                : shelveAlarm(machine, nowMs + 60 * 60_000, nowMs);
          machine = next;
          // As the board does: a step is taken down when the state or the severity has changed.
          if (next.state === before.state && next.severity === before.severity) continue;
          const answer = newsOf({ from: before.state, to: next.state, arrow }, false);
          // The end of a shelf says that it stands, also to those who had been told that it was over.
          // So does what grew graver on the shelf.
          const isOffShelf = answer === 'got-worse' && before.state === 'shelved';
          if (answer === 'first-raise' || answer === 'reminder-due' || isOffShelf) notified = true;
          if (answer === 'cleared') {
            if (!notified && before.state !== 'shelved') return false;
            notified = false;
          }
        }
        return true;
      }),
    );
  });

  test('says something of every step into "unacknowledged" that no person took', () => {
    for (const from of alarmStates.filter((state) => state !== 'shelved' && state !== 'out-of-service')) {
      expect(newsOf({ from, to: 'unacknowledged', arrow: 'raised' }, false)).not.toBe('nothing-new');
    }
  });
});

describe('reminderOf()', () => {
  const minute = 60_000;
  const reminders: [AlarmState, boolean, number | null, number, NotifyReason][] = [
    // state            suppressed every  told since [min]  answer
    ['unacknowledged', false, 60, 59, 'nothing-new'],
    ['unacknowledged', false, 60, 60, 'reminder-due'],
    ['unacknowledged', false, null, 6000, 'nothing-new'],
    ['unacknowledged', true, 60, 600, 'nothing-new'],
    ['acknowledged', false, 60, 600, 'nothing-new'],
    ['returned-unacknowledged', false, 60, 600, 'nothing-new'],
    ['shelved', false, 60, 600, 'nothing-new'],
    ['out-of-service', false, 60, 600, 'nothing-new'],
  ];
  for (const [state, suppressed, everyMin, sinceMin, answer] of reminders) {
    test(`of an alarm ${state}${suppressed ? ', suppressed,' : ''} told ${sinceMin} min ago, every ${everyMin} min: ${answer}`, () => {
      expect(reminderOf({ lastAtMs: 0 }, { state, suppressed }, everyMin, sinceMin * minute)).toBe(answer);
    });
  }
});
