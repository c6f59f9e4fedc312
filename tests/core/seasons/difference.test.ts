import fc from 'fast-check';
import { expect, test } from 'vitest';
import { difference, mannWhitneyCounts } from '../../../core/seasons/difference.ts';
import { chanceRemark, type MeasureSaying, sayDifference } from '../../../core/seasons/difference-message.ts';
import { type Message, verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

test('mannWhitneyCounts() of 2 and 2 is 1, 1, 2, 1, 1', () => {
  expect(mannWhitneyCounts(2, 2)).toEqual([1, 1, 2, 1, 1]);
});

test('difference() of 3 and 3 has no interval, of 4 and 4 it has: 2/20 is more than 0.05, 2/70 less', () => {
  expect(difference([7, 8, 9], [1, 2, 3]).interval).toBeNull();
  expect(difference([5, 6, 7, 8], [1, 2, 3, 4])).toEqual({ counts: [4, 4], shift: 4, interval: [1, 7] });
});

const few: [number, number, boolean][] = [
  [2, 7, false], // 2/36
  [2, 8, true], // 2/45
  [3, 4, false], // 2/35
  [3, 5, true], // 2/56
];
for (const [m, n, tells] of few) {
  test(`difference() of ${m} and ${n} batches ${tells ? 'has an interval' : 'has none'}`, () => {
    const up = (count: number) => Array.from({ length: count }, (_, i) => i + 0.1 * count);
    expect(difference(up(m), up(n)).interval !== null).toBe(tells);
  });
}

test('difference() leaves out what is not known, and knows nothing of an empty group', () => {
  expect(difference([null, 2], [1, null]).counts).toEqual([1, 1]);
  expect(difference([null], [1])).toEqual({ counts: [0, 1], shift: null, interval: null });
});

test('difference() the other way round is the same with the sign turned, and moves with what is added to one group', () => {
  const group = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 4, maxLength: 12 });
  fc.assert(
    fc.property(group, group, (one, other) => {
      const there = difference(one, other);
      const back = difference(other, one);
      expect(-(there.shift ?? 0)).toBeCloseTo(back.shift ?? 0, 9);
      expect(-(there.interval?.[0] ?? 0)).toBeCloseTo(back.interval?.[1] ?? 0, 9);
      const moved = difference(
        one.map((value) => value + 10),
        other,
      );
      expect(moved.interval?.[0]).toBeCloseTo((there.interval?.[0] ?? 0) + 10, 9);
    }),
    { seed: 6, numRuns: 60 },
  );
});

const saying: MeasureSaying = {
  name: verbatim('hours to 40 °C'),
  amount: (value) => verbatim(`${Math.round(value)} h`),
};
const inWords = (said: Message | null) => (said === null ? '' : plainEnglish(said));
const groups = ['wheat bran', 'rice bran'] as const;

test('sayDifference(): three batches each: too few to tell', () => {
  expect(inWords(sayDifference(difference([7, 8, 9], [1, 2, 3]), saying, groups))).toBe(
    'Hours to 40 °C: three batches each: too few to tell.',
  );
  expect(inWords(sayDifference(difference([7, 8], [1, 2, 3]), saying, groups))).toContain(
    'two and three batches: too few',
  );
});

test('sayDifference(): an interval on one side of 0 is told with both ends and the batches', () => {
  expect(inWords(sayDifference(difference([5, 6, 7, 8], [1, 2, 3, 4]), saying, groups))).toBe(
    'Hours to 40 °C: about 4 h higher in wheat bran than in rice bran, between 1 h and 7 h (95 in 100; 4 batches each).',
  );
  expect(inWords(sayDifference(difference([1, 2, 3, 4], [5, 6, 7, 8]), saying, groups))).toContain(
    'about 4 h lower in wheat bran',
  );
});

test('sayDifference(): an interval across 0 shows no difference', () => {
  expect(inWords(sayDifference(difference([1, 6, 3, 8], [2, 5, 4, 7]), saying, groups))).toContain(
    'no difference shows',
  );
});

test('no sentence of a difference claims a cause', () => {
  const all = [
    inWords(sayDifference(difference([5, 6, 7, 8], [1, 2, 3, 4]), saying, groups)),
    inWords(sayDifference(difference([1, 6, 3, 8], [2, 5, 4, 7]), saying, groups)),
    inWords(chanceRemark(15)),
  ].join(' ');
  expect(all).not.toMatch(/because|due to|caus|thanks to|led to|makes|made/i);
  expect(inWords(chanceRemark(15))).toContain('by chance alone');
});
