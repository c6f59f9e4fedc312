import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { WrittenView } from '../../../shared/contracts/plan.ts';
import { anyDilution, anyMix, anyWater, seed } from './arbitrary-asks.ts';
import { dilutionInWords, mixInWords, waterInWords } from './in-words.ts';
import { inSi, workSum } from './work-sum.ts';

/** Every step, done again from its own text, must come to its value: no other tolerance than the rounding of the text. */
function expectToWorkOut(working: readonly Pick<WrittenView['working'][number], 'what' | 'sum' | 'value' | 'unit'>[]) {
  for (const { what, sum, value, unit } of working) {
    const worked = workSum(sum);
    const claimed = inSi(value, unit);
    const slack = 1e-9 * (Math.abs(claimed.low) + 1e-12);
    const fits = claimed.low >= worked.low - slack && claimed.low <= worked.high + slack;
    if (!fits || claimed.kg !== worked.kg || claimed.m !== worked.m) {
      expect.fail(`${what}: ${sum} does not come to ${value} ${unit}`);
    }
  }
}

describe('the working, done again from its text in every mix of units', () => {
  test('of a dilution comes to what it says', () => {
    fc.assert(
      fc.property(anyDilution, (ask) => expectToWorkOut(dilutionInWords(ask).working)),
      { seed, numRuns: 300 },
    );
  });
  test('of a watering comes to what it says', () => {
    fc.assert(
      fc.property(anyWater, (ask) => expectToWorkOut(waterInWords(ask).working)),
      { seed, numRuns: 300 },
    );
  });
  test('of a mix comes to what it says', () => {
    fc.assert(
      fc.property(anyMix, (ask) => expectToWorkOut(mixInWords(ask).working)),
      { seed, numRuns: 300 },
    );
  });
});

describe('workSum() itself', () => {
  test('finds a wrong result, adds no litres to kilograms, and reads gallons', () => {
    expect(() => expectToWorkOut([{ what: 'x', sum: '10 kg × 60 %', value: 6.1, unit: 'kg' }])).toThrow(
      /does not come/,
    );
    expect(() => expectToWorkOut([{ what: 'x', sum: '10 kg × 60 %', value: 6, unit: 'L' }])).toThrow(/does not come/);
    expect(() => workSum('10 kg + 1 L')).toThrow(/unlike/);
    expect(workSum('1 US gal ÷ 1 L').low).toBeLessThan(3.785411784);
    expect(workSum('1 US gal ÷ 1 L').high).toBeGreaterThan(3.785411784);
  });
});
