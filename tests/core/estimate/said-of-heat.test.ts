import { expect, test } from 'vitest';
import type { PastHeat } from '../../../core/estimate/heat-memory.ts';
import { lostCultureSigns, pastHeatMessage } from '../../../core/estimate/past-heat-message.ts';
import { phaseReasonMessage, phaseReasons } from '../../../core/estimate/phase.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

const limits = { actC: 50, lossC: 60 };
const past = (part: Partial<PastHeat>): PastHeat => ({
  position: 'core',
  peakC: 45,
  peakAtMs: 0,
  actH: 0,
  lossH: 0,
  unjudged: null,
  ...part,
});

test.each<[string, PastHeat[], string | null]>([
  ['no place', [], null],
  ['a core that stayed below its limits', [past({ peakC: 49.9 })], null],
  [
    'a core over the limit to act',
    [past({ peakC: 52.34, actH: 9.34 })],
    'The core lay at 50 °C or more for 9.3 hours, up to 52.3 °C.',
  ],
  [
    'a core briefly over the limit of loss',
    [past({ peakC: 60, actH: 3, lossH: 0.5 })],
    'The core came up to 60 °C, and lay at 60 °C or more for 30 minutes.',
  ],
  [
    'a core that may be lost',
    [past({ peakC: 63.4, actH: 9, lossH: 2, unjudged: { lossH: 2, peakC: 63.4 } })],
    'The core lay at 60 °C or more for 2 hours, up to 63.4 °C. Its culture may be lost, and nobody has smelt or looked at it since.',
  ],
  [
    'a top that was judged since',
    [past({ position: 'top', peakC: 61, actH: 9, lossH: 2.04 })],
    'The top lay at 60 °C or more for 2 hours, up to 61 °C; somebody has smelt or looked at it since.',
  ],
])('pastHeatMessage() of %s', (_what, heats, says) => {
  const said = pastHeatMessage(heats, limits);
  expect(said && plainEnglish(said)).toBe(says);
});

test('the signs of a lost culture speak for and against it', () => {
  expect(plainEnglish(lostCultureSigns)).toMatch(/speak for it; .* speak against it\.$/);
});

test('phaseReasonMessage() has a clause for every reason', () => {
  for (const reason of phaseReasons) expect(plainEnglish(phaseReasonMessage(reason))).toMatch(/^[a-z].*[a-z]$/);
  expect(plainEnglish(phaseReasonMessage('back-near-air'))).toBe(
    'the core came back to within 5 °C of the air and stayed there',
  );
});
