import { expect, test } from 'vitest';
import { passWords } from '../../../core/warnings/overheating-soon.ts';

const rows: [number, number | null, string][] = [
  // likelihood, hours
  [0.97, 3, 'is likely to pass 50 °C in about 3 hours: more than 9 chances in 10'],
  [0.66, 1, 'is likely to pass 50 °C in about 1 hour: 7 chances in 10'],
  [0.65, 1, 'may pass 50 °C in about 1 hour: 7 chances in 10'],
  [0.3, null, 'may pass 50 °C within some hours: 3 chances in 10'],
];
for (const [overLikelihood, overInH, wanted] of rows) {
  test(`passWords() at a likelihood of ${overLikelihood} within ${overInH} h`, () => {
    const forecast = { atMs: 0, p10C: [], p50C: [], p90C: [], overShare: 1, overLikelihood, overInH };
    expect(passWords(forecast, 50)).toBe(wanted);
  });
}

test('passWords() without a forecast goes by the pace alone', () => {
  expect(passWords(null, 50)).toBe('is likely to pass 50 °C within some hours');
});
