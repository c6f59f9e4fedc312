import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bucketCount,
  cover,
  lengthOf,
  planBuckets,
  rawTier,
  tierLengthsMs,
} from '../../../shared/store/readings/tiers.ts';

const secondMs = 1_000;
const minuteMs = 60 * secondMs;
const hourMs = 60 * minuteMs;
const dayMs = 24 * hourMs;
const beginMs = Date.UTC(2031, 0, 1);

describe('planBuckets()', () => {
  const rows: [range: string, rangeMs: number, points: number, bucketMs: number, tier: number][] = [
    ['ten seconds in 1,000', 10 * secondMs, 1_000, secondMs, rawTier],
    ['an hour in 500', hourMs, 500, 10 * secondMs, rawTier], // 7.2 s would do
    ['a day in 500', dayMs, 500, 5 * minuteMs, rawTier],
    ['500 times 5 minutes in 500', 2_500 * minuteMs, 500, 5 * minuteMs, rawTier],
    ['one second more', 2_500 * minuteMs + secondMs, 500, 10 * minuteMs, 0],
    ['a week in 500', 7 * dayMs, 500, 30 * minuteMs, 0], // 20.16 min would do
    ['20 days 20 hours in 500: an hour', 500 * hourMs, 500, hourMs, 1],
    ['a month in 500', 30 * dayMs, 500, 2 * hourMs, 1],
    ['500 times 3 hours in 500', 1_500 * hourMs, 500, 3 * hourMs, 2],
    ['a year in 1,000', 365 * dayMs, 1_000, 9 * hourMs, 2], // 8.76 h would do
    ['ten years in 5,000', 3_652 * dayMs, 5_000, 18 * hourMs, 2],
  ];
  for (const [range, rangeMs, points, bucketMs, tier] of rows) {
    test(`for ${range}: ${bucketMs / minuteMs} min from ${tier === rawTier ? 'raw rows' : `tier ${tier}`}`, () => {
      expect(planBuckets(beginMs, beginMs + rangeMs, points)).toEqual({ bucketMs, tier });
    });
  }

  test('never needs more buckets than points, and no shorter length of its tier would do', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 5e12 }),
        fc.integer({ min: 1, max: 2e11 }),
        fc.integer({ min: 1, max: 5_000 }),
        (fromMs, rangeMs, points) => {
          const { bucketMs, tier } = planBuckets(fromMs, fromMs + rangeMs, points);
          expect(bucketCount(fromMs, fromMs + rangeMs, bucketMs)).toBeLessThanOrEqual(points);
          if (tier === rawTier) return;
          expect(bucketMs % lengthOf(tier)).toBe(0);
          const shorterMs = bucketMs - lengthOf(tier);
          if (shorterMs > 0) expect(bucketCount(fromMs, fromMs + rangeMs, shorterMs)).toBeGreaterThan(points);
        },
      ),
      { seed: 20310402 },
    );
  });
});

describe('cover()', () => {
  test('of 0:07 to 7:15 from the three-hour tier: finer at both edges', () => {
    const at = (hour: number, minute: number) => beginMs + hour * hourMs + minute * minuteMs;
    expect(cover(at(0, 7), at(7, 15), 2)).toEqual([
      { tier: rawTier, fromMs: at(0, 7), toMs: at(0, 10) },
      { tier: 0, fromMs: at(0, 10), toMs: at(1, 0) },
      { tier: 1, fromMs: at(1, 0), toMs: at(3, 0) },
      { tier: 2, fromMs: at(3, 0), toMs: at(6, 0) },
      { tier: 1, fromMs: at(6, 0), toMs: at(7, 0) },
      { tier: 0, fromMs: at(7, 0), toMs: at(7, 10) },
      { tier: rawTier, fromMs: at(7, 10), toMs: at(7, 15) },
    ]);
  });

  test('of nothing is nothing', () => {
    expect(cover(beginMs, beginMs, 2)).toEqual([]);
  });

  test('holds every moment once, and only whole rows of a tier', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 30 * dayMs }),
        fc.integer({ min: 0, max: 3 * dayMs }),
        fc.integer({ min: rawTier, max: tierLengthsMs.length - 1 }),
        (fromMs, rangeMs, tier) => {
          let reachedMs = fromMs;
          for (const stretch of cover(fromMs, fromMs + rangeMs, tier)) {
            expect(stretch.fromMs).toBe(reachedMs);
            expect(stretch.toMs).toBeGreaterThan(stretch.fromMs);
            if (stretch.tier !== rawTier) {
              expect([stretch.fromMs % lengthOf(stretch.tier), stretch.toMs % lengthOf(stretch.tier)]).toEqual([0, 0]);
            }
            reachedMs = stretch.toMs;
          }
          expect(reachedMs).toBe(fromMs + rangeMs);
        },
      ),
      { seed: 20310403 },
    );
  });
});
