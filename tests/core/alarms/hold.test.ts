import { expect, test } from 'vitest';
import { type Condition, type HoldBranch, stands, stepHold } from '../../../core/alarms/hold.ts';
import type { Evidence } from '../../../shared/warning.ts';

const min = 60_000;
const delays = { onDelayMs: 10 * min, offDelayMs: 30 * min };

const rows: [Condition, Evidence, number, Condition, HoldBranch][] = [
  // from       evidence   held[min] to          branch
  ['unknown', 'present', 0, 'pending', 'first-seen'],
  ['unknown', 'absent', 0, 'clear', 'nothing-seen'],
  ['unknown', 'missing', 500, 'unknown', 'evidence-lost'],
  ['clear', 'present', 0, 'pending', 'first-seen'],
  ['clear', 'absent', 500, 'clear', 'nothing-seen'],
  ['clear', 'missing', 1, 'unknown', 'evidence-lost'],
  ['pending', 'present', 9, 'pending', 'waiting-to-raise'],
  ['pending', 'present', 10, 'raised', 'held-long-enough'], // either side of the on-delay
  ['pending', 'absent', 9, 'clear', 'gone-before-hold'],
  ['pending', 'absent', 11, 'clear', 'gone-before-hold'],
  ['pending', 'missing', 9, 'unknown', 'evidence-lost'],
  ['raised', 'present', 500, 'raised', 'still-present'],
  ['raised', 'absent', 0, 'clearing', 'first-gone'],
  ['raised', 'missing', 500, 'raised', 'kept-without-evidence'],
  ['clearing', 'present', 29, 'raised', 'came-back'],
  ['clearing', 'absent', 29, 'clearing', 'waiting-to-clear'],
  ['clearing', 'absent', 30, 'clear', 'gone-long-enough'], // either side of the off-delay
  ['clearing', 'missing', 29, 'raised', 'kept-without-evidence'],
  ['clearing', 'missing', 30, 'raised', 'kept-without-evidence'],
];
for (const [from, evidence, heldMin, to, branch] of rows) {
  test(`stepHold() from ${from} with evidence ${evidence} for ${heldMin} min: ${branch}`, () => {
    const step = stepHold({ condition: from, sinceMs: 0 }, evidence, heldMin * min, delays);
    expect([step.next.condition, step.branch]).toEqual([to, branch]);
    expect(step.next.sinceMs).toBe(to === from ? 0 : heldMin * min);
  });
}

test('stepHold() without delays raises at the first sight and clears at the first proof of absence', () => {
  const none = { onDelayMs: 0, offDelayMs: 0 };
  expect(stepHold({ condition: 'clear', sinceMs: 0 }, 'present', 1, none).branch).toBe('held-long-enough');
  expect(stepHold({ condition: 'unknown', sinceMs: 0 }, 'present', 1, none).next.condition).toBe('raised');
  expect(stepHold({ condition: 'raised', sinceMs: 0 }, 'absent', 1, none).branch).toBe('gone-long-enough');
});

test('stepHold() refuses to go back in time', () => {
  expect(() => stepHold({ condition: 'clear', sinceMs: 10 }, 'absent', 9, delays)).toThrow(RangeError);
  expect(() => stepHold({ condition: 'clear', sinceMs: 10 }, 'absent', Number.NaN, delays)).toThrow(RangeError);
});

test('stands() counts raised and clearing', () => {
  expect(['unknown', 'clear', 'pending', 'raised', 'clearing'].map((one) => stands(one as Condition))).toEqual([
    false,
    false,
    false,
    true,
    true,
  ]);
});
