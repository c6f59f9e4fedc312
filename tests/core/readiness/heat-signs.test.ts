import { describe, expect, test } from 'vitest';
import type { PastHeat } from '../../../core/estimate/heat-memory.ts';
import { type HeatSight, heatSigns } from '../../../core/readiness/heat-signs.ts';
import { lookFor, readinessMessage } from '../../../core/readiness/readiness-message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';

const sayReadiness = (...said: Parameters<typeof readinessMessage>) => plainEnglish(readinessMessage(...said));

const air = 20;
/** A hump of `peakK` above the air that lasts four days and then lies at `restK` above it. */
function hump(peakK: number, restK: number, hours: number, turnsAtH: number[] = []): HeatSight {
  const coreC = Array.from({ length: hours }, (_, hour) =>
    hour < 96 ? air + Math.max(restK, peakK * Math.sin((hour / 96) * Math.PI)) : air + restK,
  );
  return { coreC, airC: coreC.map(() => air), turnsAtH, heat: [], lossC: 60 };
}
/** Of the three that hourly means tell. */
const evidence = (sight: HeatSight) =>
  heatSigns(sight)
    .filter(({ sign }) => sign !== 'not-overheated')
    .map((one) => one.evidence);

describe('heatSigns()', () => {
  const rows: [string, HeatSight, string[]][] = [
    ['heat came, fell, and a turn brought none back', hump(25, 2, 150, [110]), ['present', 'present', 'present']],
    ['a hump of 8 °C is heat that came', hump(8.01, 2, 150, [110]), ['present', 'present', 'present']],
    ['a hump of 7.9 °C is not', hump(7.9, 2, 150, [110]), ['absent', 'absent', 'present']],
    ['5 °C above the air is back at it', hump(25, 5, 150, [110]), ['present', 'present', 'present']],
    ['5.1 °C is not', hump(25, 5.1, 150, [110]), ['present', 'absent', 'present']],
    ['no turn: not tested by one', hump(25, 2, 150), ['present', 'present', 'missing']],
    ['a turn 24 h ago: not a day watched yet', hump(25, 2, 134, [110]), ['present', 'present', 'missing']],
    ['a turn 25 h ago', hump(25, 2, 135, [110]), ['present', 'present', 'present']],
    ['nothing measured', { coreC: [], airC: [], turnsAtH: [], heat: [], lossC: 60 }, ['missing', 'missing', 'missing']],
  ];
  for (const [what, sight, expected] of rows) test(what, () => expect(evidence(sight)).toEqual(expected));

  test('a reheating after the last turn speaks against it, also within the first day', () => {
    const sight = hump(25, 2, 122, [110]);
    const coreC = sight.coreC.map((one, hour) => (hour >= 115 && one !== null ? one + (hour - 114) : one));
    expect(evidence({ ...sight, coreC })).toEqual(['present', 'absent', 'absent']);
  });

  test('a cold night after the turn is no warmth of the heap', () => {
    const sight = hump(25, 2, 200, [110]);
    const airC = sight.airC.map((_, hour) => air + 5 * Math.sin((hour / 24) * 2 * Math.PI));
    expect(evidence({ ...sight, airC })).toEqual(['present', 'present', 'present']);
  });

  test('a probe that fell silent leaves the last hours unknown', () => {
    const sight = hump(25, 2, 150, [110]);
    const coreC = sight.coreC.map((one, hour) => (hour > 145 ? null : one));
    expect(evidence({ ...sight, coreC })).toEqual(['present', 'missing', 'present']);
  });
});

const past = (lossH: number, isJudged: boolean): PastHeat => ({
  position: 'core',
  peakC: 63.4,
  peakAtMs: 0,
  actH: lossH + 5,
  lossH,
  unjudged: isJudged ? null : { lossH, peakC: 63.4 },
});

describe('heatSigns() of a batch that was too hot', () => {
  const rows: [string, PastHeat[], string][] = [
    ['just short of two hours at its limit of loss', [past(1.9, true)], 'present'],
    ['two hours', [past(2, false)], 'absent'],
    ['hours that a person has judged since', [past(9.3, true)], 'absent'],
    ['a top alone measured, and cool', [{ ...past(0, true), position: 'top' }], 'missing'],
    ['nothing measured', [], 'missing'],
  ];
  for (const [what, heat, expected] of rows) {
    test(`not-overheated of ${what}: ${expected}`, () => {
      const sign = heatSigns({ ...hump(25, 2, 150, [110]), heat }).find((one) => one.sign === 'not-overheated');
      expect(sign?.evidence).toBe(expected);
    });
  }

  test('is never said to have come and gone as it should, and a person’s later word is', () => {
    const signs = heatSigns({ ...hump(25, 2, 150, [110]), heat: [past(9.3, false)] });
    expect(sayReadiness(signs, null)).toMatch(/speaks against it/);
    expect(sayReadiness(signs, { ready: true })).toMatch(/speaks against it/);
    const judged = sayReadiness(signs, { ready: true }, undefined, false, true);
    expect(judged).toBe('A person found it ready by smell and look, after it had been too hot for its culture.');
  });
});

describe('readinessMessage()', () => {
  const cool = { heat: [past(0, true)] };
  const all = heatSigns({ ...hump(25, 2, 150, [110]), ...cool });
  const hot = heatSigns({ ...hump(25, 12, 150, [110]), ...cool });

  test('probes alone never say ready', () => {
    expect(sayReadiness(all, null)).toMatch(/probes alone never say/);
    for (const signs of [all, hot, heatSigns(hump(2, 2, 10, []))])
      expect(sayReadiness(signs, null)).not.toMatch(/found it ready|(?<!never say that it )\bis ready\b/);
  });

  test('a person’s yes is a yes, and what the probes saw against it stays said', () => {
    expect(sayReadiness(all, { ready: true })).toMatch(/found it ready/);
    expect(sayReadiness(hot, { ready: true })).toMatch(/speaks against it/);
    expect(sayReadiness(all, { ready: false })).toMatch(/did not find it ready/);
  });

  test('each stage has words for good and bad, and the cautions', () => {
    for (const stage of ['bran', 'soil'] as const) {
      const words = lookFor[stage];
      expect(words.good.length).toBeGreaterThan(2);
      expect(words.bad.length).toBeGreaterThan(2);
      expect(words.cautions.map((one) => plainEnglish(one)).join(' ')).toMatch(/mask.*not sanitised/s);
    }
  });
});
