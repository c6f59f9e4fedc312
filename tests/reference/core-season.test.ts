/**
 * Measures of the real litter heap against what is known of it, and statistics against the library simple-statistics.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { median, quantile, rootMeanSquare, wilcoxonRankSum } from 'simple-statistics';
import { expect, test } from 'vitest';
import { curveDistanceK } from '../../core/seasons/align.ts';
import type { Columns } from '../../core/seasons/course.ts';
import { difference, mannWhitneyCounts } from '../../core/seasons/difference.ts';
import { dispersionOf } from '../../core/seasons/dispersion.ts';
import { measureBatch } from '../../core/seasons/measure-batch.ts';
import { stageLimits } from '../../shared/stage.ts';

function column(index: number): Columns {
  const atMs: number[] = [];
  const values: number[] = [];
  for (const line of readFileSync(new URL('../data/litter-heap-2023-hourly.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)) {
    const cells = line.split(',');
    if (!cells[index]) continue;
    atMs.push(Date.parse(`${cells[0]}Z`));
    values.push(Number(cells[index]));
  }
  return { atMs, meanC: values, maxC: values };
}

test('the litter heap: T12 passes 40 °C 51.5 h after the heap was begun, its peak is 56.5 °C', () => {
  // Kamp & Feilberg 2024; begun 2023-08-29 09:30, see tests/data/litter-heap-2023-events.csv.
  const startedAtMs = Date.parse('2023-08-29T09:30:00Z');
  const core = column(4);
  const measures = measureBatch({
    setup: {
      stage: 'bran',
      startedAtMs,
      limits: stageLimits.bran,
      recipe: { material: 'other', depthM: 1.8, moistureFrac: 0.488, cover: 'open' },
      acts: [],
    },
    untilMs: Date.parse('2023-10-12T10:25:00Z'),
    ended: true,
    core,
    air: column(6),
    alarms: [],
  });
  expect(measures.hoursTo40).toBe(51.5);
  expect(measures.peakC).toBeCloseTo(56.5, 1); // to the decimal in which it is quoted
  expect(measures.above60H).toBe(0);
  // Counted from the file by hand of a plain loop: hours whose reading lies above 50 °C, one hour each.
  const plain = Array.from(core.meanC).filter((tempC) => tempC > 50).length;
  expect(Math.abs((measures.above50H ?? 0) - plain)).toBeLessThan(2);
  expect(measures.everyH).toBe(1);
});

const values = fc.array(fc.double({ min: -60, max: 60, noNaN: true }), { minLength: 2, maxLength: 12 });

test('difference(): its shift is the median of all differences', () => {
  fc.assert(
    fc.property(values, values, (one, other) => {
      const all = one.flatMap((x) => other.map((y) => x - y));
      expect(difference(one, other).shift).toBeCloseTo(median(all), 9);
    }),
    { seed: 6, numRuns: 60 },
  );
});

test('dispersionOf(): quartiles by straight interpolation; the middle and, of 4 k + 1 values, the quarters agree', () => {
  // The library takes order statistics without interpolation, so quarters agree where they fall on one.
  const five = fc.array(fc.double({ min: -60, max: 60, noNaN: true }), { minLength: 9, maxLength: 9 });
  fc.assert(
    fc.property(five, (sample) => {
      const spread = dispersionOf(sample);
      expect(spread?.middle).toBeCloseTo(median(sample), 9);
      expect(spread?.quarter).toBeCloseTo(quantile(sample, 0.25), 9);
      expect(spread?.threeQuarter).toBeCloseTo(quantile(sample, 0.75), 9);
    }),
    { seed: 6, numRuns: 60 },
  );
});

test('mannWhitneyCounts(): counted anew by ranking every way to split seven values into three and four', () => {
  const counts = new Array(13).fill(0);
  for (let mask = 0; mask < 128; mask += 1) {
    const one = [1, 2, 3, 4, 5, 6, 7].filter((value) => mask & (1 << (value - 1)));
    if (one.length !== 3) continue;
    const other = [1, 2, 3, 4, 5, 6, 7].filter((value) => !one.includes(value));
    // Rank sum less its smallest is the number of pairs with the first above the second.
    counts[wilcoxonRankSum(one, other) - 6] += 1;
  }
  expect(mannWhitneyCounts(3, 4)).toEqual(counts);
});

test('curveDistanceK() is the root mean square of the hours both curves have', () => {
  const curve = fc.array(fc.double({ min: 10, max: 60, noNaN: true }), { minLength: 30, maxLength: 30 });
  fc.assert(
    fc.property(curve, curve, fc.integer({ min: 0, max: 10 }), (one, other, late) => {
      const laid = (coreC: number[], warmingAfterH: number) => ({ coreC, airC: [], warmingAfterH });
      const apart = curveDistanceK(laid(one, 0), laid([...new Array(late).fill(20), ...other], late), 'warming', 30);
      expect(apart).toBeCloseTo(rootMeanSquare(one.map((value, i) => value - (other[i] as number))), 9);
    }),
    { seed: 6, numRuns: 40 },
  );
});
