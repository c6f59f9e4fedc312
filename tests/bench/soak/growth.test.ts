import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { robustGrowth } from './growth.ts';

describe('robustGrowth()', () => {
  test('is the slope of a straight line, and its range is nothing but it', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 50 }), fc.integer({ min: 3, max: 40 }), (slope, n) => {
        const growth = robustGrowth(Array.from({ length: n }, (_, step) => 7 + slope * step));
        expect(growth).toEqual({ perStep: slope, fromPerStep: slope, toPerStep: slope });
      }),
    );
  });

  test('is not moved by a few odd values, as the least squares would be', () => {
    const line = Array.from({ length: 30 }, (_, step) => 500 + 0.1 * step);
    line[29] = 900;
    line[10] = 800;
    expect(robustGrowth(line).perStep).toBeCloseTo(0.1, 1);
  });

  test('holds nought in its range where values go up and down about the same', () => {
    const { fromPerStep, toPerStep } = robustGrowth(Array.from({ length: 30 }, (_, step) => (step % 7) * 3));
    expect([Math.sign(fromPerStep), Math.sign(toPerStep)]).toEqual([-1, 1]);
  });

  test('is what a reference library gives', () => {
    // scipy.stats.theilslopes(y, alpha=0.95) of SciPy 1.17.1: 0.80476, 0.16667, 1.3.
    const growth = robustGrowth([538.9, 540.2, 541.1, 537.3, 541.4, 546, 539.9, 544.8, 543.2, 547.9, 541.7, 549.3]);
    expect(growth.perStep).toBeCloseTo(0.80476, 5);
    expect(growth.fromPerStep).toBeCloseTo(0.16667, 5);
    expect(growth.toPerStep).toBeCloseTo(1.3, 5);
  });

  // Slopes: -52, six of 2, 20, 29, 56. n = 5, so √Var(S) = 4.08 and half = 8: ranks 1 and 10 of 10.
  test('gives the range of ranks that Sen names', () => {
    expect(robustGrowth([0, 2, 4, 60, 8])).toEqual({ perStep: 2, fromPerStep: -52, toPerStep: 56 });
  });
});
