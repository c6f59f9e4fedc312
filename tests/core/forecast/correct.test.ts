import { expect, test } from 'vitest';
import { atHorizon, correctedRise, knotsH } from '../../../core/forecast/correct.ts';
import type { PileNow } from '../../../core/forecast/pile-now.ts';
import { halfWidth } from '../../../core/forecast/width.ts';
import { pileAt } from '../helpers.ts';

const pile = pileAt(20, (hour) => 21 + hour);
const nothing = { medianK: 0, meanK: 0, spreadK: 0 };
const still: PileNow = { ...pile, seen: () => 41 };

test('correctedRise() is 4.07 K for the worked pile', () => {
  // Our own fit: the value guards the table, it is no outside check.
  expect(correctedRise({ medianK: 4, meanK: 3.5, spreadK: 2 }, pile, 1, 12)).toBeCloseTo(4.068, 2);
});

test('correctedRise() of a pile at rest, whose members rest, is nothing', () => {
  for (const ahead of [1, 12, 24]) expect(correctedRise(nothing, still, 0, ahead)).toBeCloseTo(0, 9);
});

test('correctedRise() believes members less the further they lie apart', () => {
  const at = (spreadK: number) => correctedRise({ medianK: 4, meanK: 4, spreadK }, pile, 0, 12);
  expect(at(0)).toBeGreaterThan(at(4));
  expect(at(4)).toBeGreaterThan(at(100));
});

test('correctedRise() keeps the pace of a deep bed and feels the air in a shallow one', () => {
  const pace = (depthM: number) =>
    correctedRise(nothing, { ...pile, depthM }, 0, 12) - correctedRise(nothing, { ...still, depthM }, 0, 12);
  expect(pace(0.8)).toBeGreaterThan(2 * pace(0.3));
  const air = (depthM: number) =>
    correctedRise(nothing, { ...still, depthM }, 5, 12) - correctedRise(nothing, { ...still, depthM }, 0, 12);
  expect(air(0.1)).toBeGreaterThan(2 * air(0.3));
  // Beyond what any development pile was, nothing grows any more.
  expect(pace(3)).toBe(pace(0.8));
  expect(air(0.01)).toBe(air(0.1));
});

test('correctedRise() of a bed that worked hard and begins to fall is that it falls on, most of all of a deep one', () => {
  const falling = pileAt(80, (hour) => 45 - 0.2 * Math.max(0, hour - 76));
  const furtherK = (change: Partial<PileNow>) =>
    correctedRise(nothing, { ...falling, workPerDay: 0.25, ...change }, 0, 12) -
    correctedRise(nothing, { ...falling, ...change }, 0, 12);
  expect(furtherK({})).toBeLessThan(-3);
  expect(furtherK({ depthM: 0.6 })).toBeLessThan(furtherK({}));
  expect(furtherK({ depthM: 0.1 })).toBeCloseTo(0, 9);
  // Before it falls nobody knows; and little work is not much to lose.
  expect(furtherK({ seen: () => 44, nowC: 44 })).toBeCloseTo(0, 9);
  expect(furtherK({ workPerDay: 0.08 })).toBeCloseTo(0, 9);
});

test('correctedRise() believes a rise less once most of the food is eaten', () => {
  const eaten = correctedRise(nothing, { ...pile, workDone: 0.8 }, 0, 12);
  expect(eaten).toBeLessThan(correctedRise(nothing, pile, 0, 12));
  expect(correctedRise(nothing, { ...still, workDone: 0.8 }, 0, 12)).toBeCloseTo(0, 9);
});

const horizons: [number, number][] = [
  [0.5, 1],
  [1, 1],
  [4.5, 3.5],
  [12, 6],
  [23.9, 7.983],
  [24, 8],
  [30, 8],
];
for (const [aheadH, wanted] of horizons) {
  test(`atHorizon() at ${aheadH} h goes straight between its horizons and no further`, () => {
    expect(
      atHorizon(
        knotsH.map((_, knot) => knot + 1),
        aheadH,
      ),
    ).toBeCloseTo(wanted, 3);
  });
}

const unsure = { membersK: 2, waysK: 1, riseK: 3, medianK: 4 };

test('halfWidth() is 3.03 K for the worked pile', () => {
  expect(halfWidth(unsure, pile, 12)).toBeCloseTo(3.027, 2);
});

test('halfWidth() grows with everything that makes a forecast unsure, and with the hours', () => {
  const narrow = halfWidth(unsure, pile, 12);
  expect(halfWidth({ ...unsure, membersK: 4 }, pile, 12)).toBeGreaterThan(narrow);
  expect(halfWidth({ ...unsure, waysK: 2 }, pile, 12)).toBeGreaterThan(narrow);
  expect(halfWidth({ ...unsure, medianK: 6 }, pile, 12)).toBeGreaterThan(narrow);
  expect(halfWidth(unsure, { ...pile, quietH: 1 }, 12)).toBeGreaterThan(narrow);
  expect(halfWidth(unsure, { ...pile, hour: 2 }, 12)).toBeGreaterThan(narrow);
  expect(halfWidth(unsure, pile, 24)).toBeGreaterThan(narrow);
  expect(halfWidth({ membersK: 0, waysK: 0, riseK: 0, medianK: 0 }, pile, 1)).toBeGreaterThan(0.2);
});
