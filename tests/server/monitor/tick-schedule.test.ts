import { describe, expect, test } from 'vitest';
import { bandIsDue, checkpointIsDue, isDue } from '../../../server/monitor/tick-schedule.ts';
import { Failing } from '../../../server/pile/failing.ts';
import { msPerHour } from '../../../shared/units.ts';

const atMs = 1_000_000;
const failedOnce = () => {
  const failing = new Failing();
  failing.failed(new Error('a store is away'), atMs, atMs); // may be tried again a second later
  return failing;
};
const pile = (change: Partial<Parameters<typeof isDue>[0]> = {}) => ({
  begun: true,
  opening: new Failing(),
  evaluating: new Failing(),
  keeping: new Failing(),
  news: false,
  evaluatedAtMs: atMs,
  ...change,
});

describe('a pile is due', () => {
  test.each([
    ['two seconds after it was evaluated', pile(), 10, 2_000, true],
    ['not sooner', pile(), 10, 1_999, false],
    ['later among so many piles that the quiet ones would hold up the others', pile(), 2_000, 3_999, false],
    ['... and then', pile(), 2_000, 4_000, true],
    ['at once when a reading came in', pile({ news: true }), 10, 0, true],
    [
      'not before an evaluation that failed may be tried again',
      pile({ news: true, evaluating: failedOnce() }),
      10,
      999,
      false,
    ],
    ['... and then', pile({ news: true, evaluating: failedOnce() }), 10, 1_000, true],
    ['not before a change that could not be kept may be tried again', pile({ keeping: failedOnce() }), 10, 999, false],
    ['... and then', pile({ keeping: failedOnce() }), 10, 1_000, true],
    ['while it was never begun', pile({ begun: false }), 10, 0, true],
    [
      'not before its opening that failed may be tried again',
      pile({ begun: false, opening: failedOnce() }),
      10,
      999,
      false,
    ],
    ['... and then', pile({ begun: false, opening: failedOnce() }), 10, 1_000, true],
  ])('%s', (_when, one, pileCount, afterMs, due) => {
    expect(isDue(one, pileCount, atMs + afterMs)).toBe(due);
  });
});

test.each<
  [when: string, pile: { checkpointDue?: true; isAlarmWaiting?: true }, count: number, afterMs: number, due: boolean]
>([
  ['ten minutes after it was kept', {}, 100, 600_000, true],
  ['not sooner', {}, 100, 599_999, false],
  ['a minute after it was kept while an alarm waits to be raised', { isAlarmWaiting: true }, 100, 60_000, true],
  ['not sooner', { isAlarmWaiting: true }, 100, 59_999, false],
  ['later among so many piles that the journal would do little else', {}, 20_000, 999_999, false],
  ['... and then', {}, 20_000, 1_000_000, true],
  ['... also while an alarm waits to be raised', { isAlarmWaiting: true }, 2_000, 99_999, false],
  ['at once when the last one could not be kept', { checkpointDue: true }, 100, 0, true],
])('a checkpoint is due %s', (_when, { checkpointDue = false, isAlarmWaiting = false }, pileCount, afterMs, due) => {
  const pile = { checkpointDue, keptAtMs: atMs, watch: { isAlarmWaiting } };
  expect(checkpointIsDue(pile, pileCount, atMs + afterMs)).toBe(due);
});

test.each([
  ['three hours after it was asked for', false, 3 * msPerHour, true],
  ['not sooner', false, 3 * msPerHour - 1, false],
  ['after an hour where the air departs from what it was taken to be', true, msPerHour, true],
  ['not sooner, however the air is', true, msPerHour - 1, false],
])('an expected band is due %s', (_when, weatherDeparts, afterMs, due) => {
  expect(bandIsDue({ bandAskedMs: atMs, watch: { weatherDeparts } }, atMs + afterMs)).toBe(due);
});
