import { expect, test } from 'vitest';
import { passesUnseen } from '../../../core/estimate/soon-over.ts';
import { startTrack } from '../../../core/estimate/track.ts';
import { passMessage } from '../../../core/warnings/overheating-soon.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerHour } from '../../../shared/units.ts';

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

const ahead: [string, number, number, number, number | null, boolean][] = [
  // every [h], at [°C], likelihood, in [h]
  ['read every six hours that is likely to pass within them', 6, 46, 0.6, 5, true],
  ['read every three hours that is likely to pass before three more readings', 3, 46, 0.6, 9, true],
  ['read every three hours that is likely to pass after that', 3, 46, 0.6, 10, false],
  ['read every six hours that is as likely not to pass', 6, 46, 0.59, 5, false],
  ['read every six hours that none of its like passes', 6, 46, 0.6, null, false],
  ['read every six hours that is as near as most heaps come that pass', 6, 45.5, 0.6, 5, true],
  ['read every six hours that is further off, where most level off before', 6, 45.4, 0.9, 5, false],
  ['read every hour, which is told of in time', 1, 46, 0.9, 1, false],
];
for (const [what, everyH, coreC, overLikelihood, overInH, does] of ahead) {
  test(`passesUnseen() of a core at ${coreC} °C ${what}: ${does}`, () => {
    const core = { ...startTrack(coreC, 48 * msPerHour), intervalMs: everyH * msPerHour };
    const forecast = { atMs: 48 * msPerHour, p10C: [], p50C: [], p90C: [], overShare: 1, overLikelihood, overInH };
    expect(passesUnseen(core, forecast, 50)).toBe(does);
  });
}
