import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { followHeat, startHeatLog } from '../../../core/records/heat-log.ts';

describe('followHeat() with stand-ins of ten minutes', () => {
  const arbitraryWalk = fc
    .array(fc.double({ min: -1.5, max: 1.5, noNaN: true }), { minLength: 60, maxLength: 600 })
    .map((steps) => steps.slice(0, steps.length - (steps.length % 10)))
    .map((steps) => {
      let tempC = 54;
      return steps.map((step) => {
        tempC += step;
        return tempC;
      });
    });

  test('never counts more time in a band than its readings do, and keeps the highest', () => {
    fc.assert(
      fc.property(arbitraryWalk, (minutes) => {
        const bands = [
          { fromC: 55, toC: Number.POSITIVE_INFINITY },
          { fromC: 50, toC: 58 },
        ];
        const [raw, downsampled] = [startHeatLog(bands), startHeatLog(bands)];
        for (const [minute, tempC] of minutes.entries()) followHeat(raw, minute * 60_000, tempC);
        for (let first = 0; first < minutes.length; first += 10) {
          const ten = minutes.slice(first, first + 10);
          const mean = ten.reduce((sum, one) => sum + one, 0) / ten.length;
          followHeat(downsampled, (first + 5) * 60_000, mean, { min: Math.min(...ten), max: Math.max(...ten) });
        }
        expect(downsampled.highestC).toBe(raw.highestC);
        for (const [index, time] of downsampled.bands.entries()) {
          const { totalMs = 0, longestMs = 0 } = raw.bands[index] ?? {};
          expect(time.totalMs).toBeLessThanOrEqual(totalMs);
          expect(time.longestMs).toBeLessThanOrEqual(longestMs);
        }
      }),
      { seed: 20310407 },
    );
  });
});
