import { expect, test } from 'vitest';
import { passMessage } from '../../../core/warnings/overheating-soon.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

const itIs = verbatim('It is at 47 °C');

const rows: [number, number | null, string][] = [
  // likelihood, hours
  [0.97, 3, 'is likely to pass 50 °C in about 3 hours: more than 9 chances in 10'],
  [0.66, 1, 'is likely to pass 50 °C in about 1 hour: 7 chances in 10'],
  [0.65, 1, 'may pass 50 °C in about 1 hour: 7 chances in 10'],
  [0.3, null, 'may pass 50 °C within some hours: 3 chances in 10'],
];
for (const [overLikelihood, overInH, wanted] of rows) {
  test(`passMessage() at a likelihood of ${overLikelihood} within ${overInH} h`, () => {
    const forecast = { atMs: 0, p10C: [], p50C: [], p90C: [], overShare: 1, overLikelihood, overInH };
    expect(plainEnglish(passMessage(itIs, forecast, 50))).toBe(`It is at 47 °C and ${wanted}.`);
  });
}

test('passMessage() without a forecast goes by the pace alone', () => {
  expect(plainEnglish(passMessage(itIs, null, 50))).toBe(
    'It is at 47 °C and is likely to pass 50 °C within some hours.',
  );
});
