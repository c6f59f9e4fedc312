import { describe, expect, test } from 'vitest';
import type { BatchMeasures } from '../../../core/seasons/measure-batch.ts';
import { offeredReasons } from '../../../core/verdicts/offered-reasons.ts';
import type { EntryFacts } from '../../../shared/entry.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { stageLimits } from '../../../shared/stage.ts';

/** Ten days at 42 °C, measured all the time. */
const fine = {
  peakC: 42,
  comfortH: 200,
  lengthDays: 10,
  measuredFrac: 1,
  alarms: [],
} as unknown as BatchMeasures;

function offered(measures: Partial<BatchMeasures>, entries: readonly EntryFacts[] = []) {
  return offeredReasons({ measures: { ...fine, ...measures }, limits: stageLimits.bran, entries }).map(
    ({ why, says }) => [why, plainEnglish(says)],
  );
}

describe('offeredReasons()', () => {
  test('a core in its comfortable band for most of its time speaks for having warmed as it should', () => {
    expect(offered({})).toEqual([
      ['kept-warm', 'The core was between 35 °C and 45 °C for 200 hours, of 240 hours measured.'],
    ]);
  });

  test('at the temperature to act at it got too hot, below the comfortable band it never got warm', () => {
    expect(offered({ peakC: 50, comfortH: 0 })).toEqual([['too-hot', 'The core reached 50 °C.']]);
    expect(offered({ peakC: 34.9, comfortH: 0 })).toEqual([
      ['too-cool', 'The core reached 34.9 °C at most; it should reach 35 °C.'],
    ]);
  });

  test('what one smelt, saw and felt goes before what was measured', () => {
    const entries: EntryFacts[] = [
      { kind: 'smell', smells: ['ammonia'] },
      { kind: 'growth', colour: 'white', place: 'all-through' },
      { kind: 'squeeze', feel: 'pours' },
      { kind: 'pests', what: 'flies' },
      { kind: 'turned' },
    ];
    const alarms = [{ kind: 'waterlogged' as const, count: 1, hours: 30 }];
    expect(offered({ comfortH: 0, alarms }, entries)).toEqual([
      ['grew-white', 'Written down: Growth, white, all through.'],
      ['too-wet', 'Written down: Squeezed: water runs out.'],
      ['smelt-bad', 'Written down: Smells ammonia.'],
      ['pests', 'Written down: Pests, flies.'],
    ]);
  });

  test('of several notes of one sign the newest is shown', () => {
    const entries: EntryFacts[] = [
      { kind: 'smell', smells: ['sweet'] },
      { kind: 'smell', smells: ['earthy', 'mushroom'] },
    ];
    expect(offered({ comfortH: 0 }, entries)).toEqual([['smelt-good', 'Written down: Smells earthy and mushroom.']]);
  });

  test('a warning speaks where nobody noted anything', () => {
    const alarms = [
      { kind: 'drying' as const, count: 2, hours: 14 },
      { kind: 'uneven' as const, count: 1, hours: 6 },
      { kind: 'probe-silent' as const, count: 1, hours: 90 },
    ];
    expect(offered({ comfortH: 0, alarms })).toEqual([
      ['too-dry', 'A warning said so for 14 hours.'],
      ['uneven', 'A warning said so for 6 hours.'],
    ]);
  });

  test('without a core that was measured, only people speak', () => {
    expect(offered({ peakC: null, comfortH: null })).toEqual([]);
  });
});
