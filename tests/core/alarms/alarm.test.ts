import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type AlarmMachine,
  type AlarmStep,
  acknowledgeAlarm,
  isOpen,
  returnToService,
  shelveAlarm,
  startAlarm,
  stepAlarm,
  takeOutOfService,
  unshelveAlarm,
} from '../../../core/alarms/alarm.ts';
import { highLimit, lowLimit } from '../../../core/alarms/deadband.ts';
import type { Condition } from '../../../core/alarms/hold.ts';
import { delaysOf, temperatureDeadbandK } from '../../../core/alarms/policies.ts';
import { conditionOf } from '../../../shared/conditions/kinds.ts';
import { type AlarmState, type Evidence, evidences, type Severity, warningKinds } from '../../../shared/warning.ts';

const min = 60_000;
const policy = { onDelayMs: 10 * min, offDelayMs: 30 * min };

function machine(state: AlarmState, condition: Condition, change: Partial<AlarmMachine> = {}): AlarmMachine {
  return { ...startAlarm(0), state, hold: { condition, sinceMs: 0 }, severity: 'warning', ...change };
}

const seen: [AlarmState, Condition, Evidence, number, AlarmState, string][] = [
  // from                     hold        evidence   at[min] to                         arrow
  ['normal', 'pending', 'present', 9, 'normal', 'waiting-to-raise'],
  ['normal', 'pending', 'present', 10, 'unacknowledged', 'raised'],
  ['normal', 'clear', 'missing', 10, 'normal', 'evidence-lost'],
  ['unacknowledged', 'raised', 'present', 5, 'unacknowledged', 'still-present'],
  ['unacknowledged', 'raised', 'missing', 5000, 'unacknowledged', 'kept-without-evidence'],
  ['unacknowledged', 'clearing', 'absent', 29, 'unacknowledged', 'waiting-to-clear'],
  ['unacknowledged', 'clearing', 'absent', 30, 'returned-unacknowledged', 'returned'],
  ['acknowledged', 'clearing', 'absent', 29, 'acknowledged', 'waiting-to-clear'],
  ['acknowledged', 'clearing', 'absent', 30, 'normal', 'cleared'],
  ['acknowledged', 'clearing', 'missing', 30, 'acknowledged', 'kept-without-evidence'],
  ['acknowledged', 'raised', 'missing', 5000, 'acknowledged', 'kept-without-evidence'],
  ['returned-unacknowledged', 'clear', 'absent', 60, 'returned-unacknowledged', 'nothing-seen'],
  ['returned-unacknowledged', 'clear', 'missing', 60, 'returned-unacknowledged', 'evidence-lost'],
  ['returned-unacknowledged', 'pending', 'present', 9, 'returned-unacknowledged', 'waiting-to-raise'],
  ['returned-unacknowledged', 'pending', 'present', 10, 'unacknowledged', 'raised-again'],
  ['out-of-service', 'pending', 'present', 10, 'out-of-service', 'held-long-enough'],
];
for (const [from, condition, evidence, atMin, to, arrow] of seen) {
  test(`stepAlarm() from ${from} (${condition}) with evidence ${evidence} at ${atMin} min: ${arrow}`, () => {
    const step = stepAlarm(machine(from, condition), evidence, atMin * min, policy);
    expect([step.next.state, step.arrow]).toEqual([to, arrow]);
  });
}

const done: [string, AlarmState, Condition, (one: AlarmMachine) => AlarmStep, AlarmState, string][] = [
  ['acknowledge', 'unacknowledged', 'raised', (one) => acknowledgeAlarm(one, min), 'acknowledged', 'acknowledged'],
  [
    'acknowledge',
    'returned-unacknowledged',
    'clear',
    (one) => acknowledgeAlarm(one, min),
    'normal',
    'acknowledged-after-return',
  ],
  ['acknowledge', 'normal', 'clear', (one) => acknowledgeAlarm(one, min), 'normal', 'nothing-to-do'],
  ['acknowledge', 'acknowledged', 'raised', (one) => acknowledgeAlarm(one, min), 'acknowledged', 'nothing-to-do'],
  ['shelve', 'unacknowledged', 'raised', (one) => shelveAlarm(one, 60 * min, min), 'shelved', 'shelved'],
  ['shelve', 'normal', 'clear', (one) => shelveAlarm(one, 60 * min, min), 'shelved', 'shelved'],
  ['shelve', 'out-of-service', 'clear', (one) => shelveAlarm(one, 60 * min, min), 'out-of-service', 'nothing-to-do'],
  ['unshelve', 'shelved', 'raised', (one) => unshelveAlarm(one, min), 'unacknowledged', 'unshelved-still-present'],
  ['unshelve', 'shelved', 'clearing', (one) => unshelveAlarm(one, min), 'unacknowledged', 'unshelved-still-present'],
  ['unshelve', 'shelved', 'pending', (one) => unshelveAlarm(one, min), 'normal', 'unshelved-clear'],
  ['unshelve', 'acknowledged', 'raised', (one) => unshelveAlarm(one, min), 'acknowledged', 'nothing-to-do'],
  ['take out', 'acknowledged', 'raised', (one) => takeOutOfService(one, min), 'out-of-service', 'taken-out-of-service'],
  ['take out', 'out-of-service', 'raised', (one) => takeOutOfService(one, min), 'out-of-service', 'nothing-to-do'],
  [
    'put back',
    'out-of-service',
    'raised',
    (one) => returnToService(one, min),
    'unacknowledged',
    'returned-to-service-still-present',
  ],
  ['put back', 'out-of-service', 'clear', (one) => returnToService(one, min), 'normal', 'returned-to-service-clear'],
  ['put back', 'normal', 'clear', (one) => returnToService(one, min), 'normal', 'nothing-to-do'],
];
for (const [act, from, condition, doIt, to, arrow] of done) {
  test(`${act} from ${from} (${condition}): ${arrow}`, () => {
    const step = doIt(machine(from, condition));
    expect([step.next.state, step.arrow]).toEqual([to, arrow]);
  });
}

const shelf: [Condition, Evidence, number, AlarmState, string][] = [
  ['raised', 'present', 59, 'shelved', 'still-present'],
  ['raised', 'present', 60, 'unacknowledged', 'shelf-ended-still-present'],
  ['clear', 'absent', 59, 'shelved', 'nothing-seen'],
  ['clear', 'absent', 60, 'normal', 'shelf-ended-clear'],
  ['raised', 'missing', 60, 'unacknowledged', 'shelf-ended-still-present'],
];
for (const [condition, evidence, atMin, to, arrow] of shelf) {
  test(`stepAlarm() shelved until 60 min (${condition}), evidence ${evidence} at ${atMin} min: ${arrow}`, () => {
    const step = stepAlarm(machine('shelved', condition, { shelvedUntilMs: 60 * min }), evidence, atMin * min, policy);
    expect([step.next.state, step.arrow]).toEqual([to, arrow]);
    expect(step.next.shelvedUntilMs).toBe(to === 'shelved' ? 60 * min : null);
  });
}

test('shelveAlarm() refuses a time that has passed', () => {
  expect(() => shelveAlarm(machine('unacknowledged', 'raised'), min, min)).toThrow(RangeError);
});

test('stepAlarm() asks for a person again when an acknowledged alarm has got worse, and only then', () => {
  const acknowledged = machine('acknowledged', 'raised');
  expect(stepAlarm(acknowledged, 'present', min, policy, { severity: 'warning' }).next.state).toBe('acknowledged');
  const worse = stepAlarm(acknowledged, 'present', min, policy, { severity: 'urgent' });
  expect([worse.next.state, worse.arrow, worse.next.severity]).toEqual(['unacknowledged', 'got-worse', 'urgent']);
  expect(stepAlarm(acknowledged, 'missing', min, policy, { severity: 'urgent' }).next.state).toBe('acknowledged');
});

const grave: [string, AlarmState, Partial<AlarmMachine>, Evidence, Severity, number | undefined, AlarmState, string][] =
  [
    // what                                      from              as told                             evidence   seen as              to                arrow
    [
      'a graver severity',
      'unacknowledged',
      { severity: 'warning' },
      'present',
      'urgent',
      undefined,
      'unacknowledged',
      'got-worse',
    ],
    [
      'a higher rung',
      'unacknowledged',
      { severity: 'danger', rung: 2 },
      'present',
      'danger',
      3,
      'unacknowledged',
      'got-worse',
    ],
    [
      'the same rung',
      'unacknowledged',
      { severity: 'danger', rung: 3 },
      'present',
      'danger',
      3,
      'unacknowledged',
      'still-present',
    ],
    [
      'a lower rung',
      'unacknowledged',
      { severity: 'danger', rung: 3 },
      'present',
      'danger',
      2,
      'unacknowledged',
      'still-present',
    ],
    [
      'nothing, however grave it would be',
      'unacknowledged',
      { severity: 'urgent' },
      'absent',
      'danger',
      undefined,
      'unacknowledged',
      'first-gone',
    ],
    [
      'nothing for want of readings',
      'unacknowledged',
      { severity: 'urgent' },
      'missing',
      'danger',
      undefined,
      'unacknowledged',
      'kept-without-evidence',
    ],
    [
      'a higher rung',
      'acknowledged',
      { severity: 'danger', rung: 2 },
      'present',
      'danger',
      3,
      'unacknowledged',
      'got-worse',
    ],
    [
      'the same rung',
      'acknowledged',
      { severity: 'danger', rung: 3 },
      'present',
      'danger',
      3,
      'acknowledged',
      'still-present',
    ],
    [
      'a higher rung',
      'shelved',
      { severity: 'danger', rung: 1, shelvedUntilMs: 99 * min },
      'present',
      'danger',
      2,
      'unacknowledged',
      'got-worse',
    ],
    [
      'what was shelved',
      'shelved',
      { severity: 'danger', rung: 2, shelvedUntilMs: 99 * min },
      'present',
      'danger',
      2,
      'shelved',
      'still-present',
    ],
  ];
for (const [what, from, told, evidence, severity, rung, to, arrow] of grave) {
  test(`stepAlarm() of one ${from} that sees ${what}: ${arrow}`, () => {
    const grade = rung === undefined ? { severity } : { severity, rung };
    const { next, arrow: taken } = stepAlarm(machine(from, 'raised', told), evidence, min, policy, grade);
    expect([next.state, taken]).toEqual([to, arrow]);
    if (arrow === 'got-worse') expect(next).toMatchObject({ ...grade, shelvedUntilMs: null });
    else expect(next).toMatchObject(told);
  });
}

test('stepAlarm() keeps since when it was first raised over a return and a coming back of its evidence', () => {
  let at = stepAlarm(machine('normal', 'pending'), 'present', 10 * min, policy).next;
  at = stepAlarm(at, 'absent', 20 * min, policy).next;
  at = stepAlarm(at, 'present', 30 * min, policy).next;
  expect([at.state, at.firstRaisedAtMs]).toEqual(['unacknowledged', 10 * min]);
  expect(isOpen(at)).toBe(true);
});

// Limit 50, deadband 1: computed logic of OPC 10000-9 annex B (second-hand).
test('highLimit() makes one alarm of 49.9 50.1 49.6 50.2 48.9 and clears only at 48.9', () => {
  const passed: boolean[] = [];
  for (const value of [49.9, 50.1, 49.6, 50.2, 48.9]) {
    passed.push(highLimit(passed.at(-1) ?? false, value, 50, temperatureDeadbandK));
  }
  expect(passed).toEqual([false, true, true, true, false]);
});

test('highLimit() and lowLimit() hold at the limit itself and on both edges of the deadband', () => {
  expect([highLimit(false, 50, 50, 1), highLimit(true, 49, 50, 1), highLimit(true, 48.99, 50, 1)]).toEqual([
    false,
    true,
    false,
  ]);
  expect([lowLimit(false, 40, 40, 2), lowLimit(true, 42, 40, 2), lowLimit(true, 42.01, 40, 2)]).toEqual([
    false,
    true,
    false,
  ]);
});

test.each(['clear', 'past', 'at'] as const)(
  'delaysOf() what is %s of its limit changes the wait before it is raised alone',
  (nearness) => {
    const onDelayMs = { clear: 0, past: undefined, at: 30 * min }[nearness];
    for (const kind of warningKinds) {
      const policy = conditionOf(kind).delays;
      expect(delaysOf({ kind, nearness })).toEqual({ ...policy, onDelayMs: onDelayMs ?? policy.onDelayMs });
      expect(delaysOf({ kind })).toEqual(policy);
    }
  },
);

test('every kind declares its delays, none negative', () => {
  for (const kind of warningKinds) {
    expect(conditionOf(kind).delays.onDelayMs).toBeGreaterThanOrEqual(0);
    expect(conditionOf(kind).delays.offDelayMs).toBeGreaterThanOrEqual(0);
  }
});

test('no run of missing evidence, however long, leaves an open alarm normal', () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...evidences), { maxLength: 60 }),
      fc.integer({ min: 1, max: 200 }),
      (before, gone) => {
        let at = startAlarm(0);
        let nowMs = 0;
        for (const evidence of before) {
          nowMs += 7 * min;
          at = stepAlarm(at, evidence, nowMs, policy).next;
        }
        const openBefore = at.state === 'unacknowledged';
        for (let step = 0; step < gone; step += 1) {
          nowMs += 60 * min;
          at = stepAlarm(at, 'missing', nowMs, policy).next;
        }
        return !openBefore || at.state === 'unacknowledged';
      },
    ),
    { seed: 20310405 },
  );
});
