import { describe, expect, test } from 'vitest';
import { type HeatSight, heatSigns } from '../../../core/ready/heat-signs.ts';
import { readinessWords, sayReadiness } from '../../../core/ready/readiness-words.ts';

const air = 20;
/** A hump of `peakK` above the air that lasts four days and then lies at `restK` above it. */
function hump(peakK: number, restK: number, hours: number, turnsAtH: number[] = []): HeatSight {
  const coreC = Array.from({ length: hours }, (_, hour) =>
    hour < 96 ? air + Math.max(restK, peakK * Math.sin((hour / 96) * Math.PI)) : air + restK,
  );
  return { coreC, airC: coreC.map(() => air), turnsAtH };
}
const evidence = (sight: HeatSight) => heatSigns(sight).map((one) => one.evidence);

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
    ['nothing measured', { coreC: [], airC: [], turnsAtH: [] }, ['missing', 'missing', 'missing']],
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

describe('sayReadiness()', () => {
  const all = heatSigns(hump(25, 2, 150, [110]));
  const hot = heatSigns(hump(25, 12, 150, [110]));

  test('probes alone never say ready', () => {
    expect(sayReadiness(all, null)).toMatch(/probes alone never say/);
  });

  test('a person’s yes is a yes, and what the probes saw against it stays said', () => {
    expect(sayReadiness(all, { ready: true })).toMatch(/found it ready/);
    expect(sayReadiness(hot, { ready: true })).toMatch(/speaks against it/);
    expect(sayReadiness(all, { ready: false })).toMatch(/did not find it ready/);
  });

  test('each stage has words for good and bad, and the cautions', () => {
    for (const stage of ['bran', 'soil'] as const) {
      const words = readinessWords(stage);
      expect(words.good.length).toBeGreaterThan(2);
      expect(words.bad.length).toBeGreaterThan(2);
      expect(words.cautions.join(' ')).toMatch(/mask.*not sanitised/s);
    }
  });
});
