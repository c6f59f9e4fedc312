import { expect, test } from 'vitest';
import { isDue, isOld, keptOf, nightlyName, spare } from '../../../server/backup/nightly-rules.ts';

/** By the clock of the machine, as the rules take it. */
const at = (day: number, hour: number, minute = 0) => new Date(2031, 4, day, hour, minute).getTime();

test.each([
  [
    'just before three, with one of last night',
    { nowMs: at(7, 2, 59), sinceMs: at(6, 3, 1), triedMs: undefined },
    false,
  ],
  ['at three', { nowMs: at(7, 3), sinceMs: at(6, 3, 1), triedMs: undefined }, true],
  ['after three, with one of this night', { nowMs: at(7, 9), sinceMs: at(7, 3, 1), triedMs: undefined }, false],
  ['at noon, after a night switched off', { nowMs: at(7, 12), sinceMs: at(6, 3, 1), triedMs: undefined }, true],
  ['of data that began this morning', { nowMs: at(7, 12), sinceMs: at(7, 9), triedMs: undefined }, false],
  ['59 minutes after a try that failed', { nowMs: at(7, 3, 59), sinceMs: at(6, 3), triedMs: at(7, 3) }, false],
  ['an hour after it', { nowMs: at(7, 4), sinceMs: at(6, 3), triedMs: at(7, 3) }, true],
])('isDue() %s', (_when, moment, due) => {
  expect(isDue(moment)).toBe(due);
});

test('isOld() begins after three days', () => {
  expect(isOld(at(9, 3), at(6, 3))).toBe(false);
  expect(isOld(at(9, 3) + 1, at(6, 3))).toBe(true);
});

test('keptOf() reads what nightlyName() wrote, newest first, and passes over files that are not ours', () => {
  const [first, second] = [Date.UTC(2031, 4, 6, 1, 2, 3), Date.UTC(2031, 4, 7, 1, 2, 3)];
  const kept = keptOf([
    { name: nightlyName(first), bytes: 10 },
    { name: 'notes.txt', bytes: 5 },
    { name: 'before-1.0.0-20310507-000000.tar.gz', bytes: 7 },
    { name: nightlyName(second), bytes: 20 },
    { name: '.branhearth-backup-x', bytes: undefined },
  ]);
  expect(kept.map(({ madeAtMs, bytes, isNightly }) => [madeAtMs, bytes, isNightly])).toEqual([
    [second, 20, true],
    [Date.UTC(2031, 4, 7), 7, false],
    [first, 10, true],
  ]);
});

test('spare() are the nightly ones beyond those that are kept; those of before an update stay', () => {
  const nights = [9, 8, 7, 6].map((day) => ({ name: nightlyName(Date.UTC(2031, 4, day)), bytes: 1 }));
  const kept = keptOf([...nights, { name: 'before-1.0.0-20310101-000000.tar.gz', bytes: 1 }]);
  expect(spare(kept, 3).map(({ name }) => name)).toEqual([nights[3]?.name]);
});
