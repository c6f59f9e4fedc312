import { expect, test } from 'vitest';
import { type HeatMemory, pastHeat, rememberHeat, startHeat, worstHeat } from '../../../core/estimate/heat-memory.ts';
import type { Noted } from '../../../core/profiles/noted.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { msPerHour } from '../../../shared/units.ts';
import { play, setupOf, startMs, through } from '../helpers.ts';

const limits = stageLimits.bran;

const smelt = (atMs: number): Noted => ({ atMs, by: null, what: { kind: 'smell', smells: ['sweet'] } });

function remembered(readings: readonly (readonly [number, number])[], judgedAtH: readonly number[] = []): HeatMemory {
  const [first = [0, 0], ...rest] = readings;
  const heat = startHeat(first[1], first[0] * msPerHour);
  const noted = judgedAtH.map((hour) => smelt(hour * msPerHour));
  for (const [hour, tempC] of rest) rememberHeat(heat, tempC, hour * msPerHour, limits, noted);
  return heat;
}

const sums: [string, [number, number][], number, number, number][] = [
  // what                                     [h, °C] ...                         ≥50 h  ≥60 h  peak
  [
    'a core that stays below both',
    [
      [0, 40],
      [1, 49.9],
      [2, 40],
    ],
    0,
    0,
    49.9,
  ],
  [
    'a core at exactly the limit to act',
    [
      [0, 50],
      [1, 50],
    ],
    1,
    0,
    50,
  ],
  [
    'a core at exactly the limit of loss',
    [
      [0, 60],
      [1, 60],
    ],
    1,
    1,
    60,
  ],
  [
    'a rise straight through both',
    [
      [0, 40],
      [4, 80],
    ],
    3,
    2,
    80,
  ],
  [
    'a fall straight through both',
    [
      [0, 80],
      [4, 40],
    ],
    3,
    2,
    80,
  ],
  [
    'one hot reading between two of a daily probe',
    [
      [0, 40],
      [24, 70],
      [48, 40],
    ],
    32,
    16,
    70,
  ],
  [
    'readings 26 h apart',
    [
      [0, 62],
      [26, 62],
    ],
    26,
    26,
    62,
  ],
  [
    'readings further apart, which say nothing of the time between',
    [
      [0, 62],
      [26.1, 62],
    ],
    0,
    0,
    62,
  ],
];
for (const [what, readings, actH, lossH, peakC] of sums) {
  test(`pastHeat() of ${what}: ${actH} h to act, ${lossH} h of loss, peak ${peakC} °C`, () => {
    const past = pastHeat('core', remembered(readings), 1000 * msPerHour);
    expect(past.actH).toBeCloseTo(actH, 6);
    expect(past.lossH).toBeCloseTo(lossH, 6);
    expect(past.peakC).toBe(peakC);
  });
}

const judged: [string, [number, number][], number[], boolean][] = [
  // what                                                [h, °C] ...                         judged at [h]  may be lost, unjudged
  [
    'just short of two hours',
    [
      [0, 60],
      [1.99, 60],
      [3, 20],
    ],
    [],
    false,
  ],
  [
    'two hours',
    [
      [0, 60],
      [2, 60],
      [2.1, 20],
    ],
    [],
    true,
  ],
  [
    'two hours in two pieces',
    [
      [0, 60],
      [1, 60],
      [1, 59],
      [30, 59],
      [31, 60],
      [32, 60],
    ],
    [],
    true,
  ],
  [
    'hours, judged before they came',
    [
      [0, 40],
      [1, 60],
      [9, 60],
      [10, 30],
    ],
    [0.5],
    true,
  ],
  [
    'hours, judged while it is that hot',
    [
      [0, 60],
      [4, 60],
      [5, 60],
      [6, 60],
      [7, 30],
    ],
    [4.5],
    true,
  ],
  [
    'hours, judged after they passed',
    [
      [0, 60],
      [9, 60],
      [10, 30],
    ],
    [12],
    false,
  ],
  [
    'hours, judged, and hours again',
    [
      [0, 60],
      [9, 60],
      [10, 30],
      [20, 60],
      [23, 60],
    ],
    [12],
    true,
  ],
  [
    'hours, judged, and one hour again',
    [
      [0, 60],
      [9, 60],
      [10, 30],
      [20, 59],
      [21, 60],
      [22, 60],
    ],
    [12],
    false,
  ],
];
for (const [what, readings, judgedAtH, mayBeLost] of judged) {
  test(`pastHeat() of ${what}: the culture ${mayBeLost ? 'may be lost' : 'is not said to be lost'}`, () => {
    const past = pastHeat(
      'core',
      remembered(readings, judgedAtH),
      100 * msPerHour,
      judgedAtH.map((h) => smelt(h * msPerHour)),
    );
    expect(past.unjudged !== null).toBe(mayBeLost === true);
  });
}

test('pastHeat() forgets a judgement that is still to come', () => {
  const heat = remembered([
    [0, 60],
    [9, 60],
    [10, 30],
  ]);
  expect(pastHeat('core', heat, 11 * msPerHour, [smelt(12 * msPerHour)]).unjudged).not.toBeNull();
  expect(pastHeat('core', heat, 12 * msPerHour, [smelt(12 * msPerHour)]).unjudged).toBeNull();
});

test('two hours at 60 °C are what 4 h at 58 °C are, by the slope of 40 CFR 503.32', () => {
  // 4 to 6 h at 57 to 59 °C kill moulds in mushroom compost (Sinden and Hauser 1950, 1953, cited by Dhar and Kapoor 1989).
  expect(4 / 10 ** (0.14 * (60 - 58))).toBeCloseTo(2.1, 1);
});

test('worstHeat() speaks of the core first where it was too hot, else of the place that was so the longest', () => {
  const of = (position: 'core' | 'top', hours: number) =>
    pastHeat(
      position,
      remembered([
        [0, 62],
        [hours, 62],
      ]),
      100 * msPerHour,
    );
  expect(worstHeat([of('core', 3), of('top', 9)])?.position).toBe('core');
  expect(worstHeat([of('core', 1), of('top', 9)])?.position).toBe('top');
  expect(worstHeat([])).toBeNull();
});

/** Up to 63.4 °C, above 60 °C for 9.3 h, and back to the air. */
const overheated = through([0, 22], [20, 42], [30, 60], [34, 63.4], [39.3, 60], [50, 40], [120, 24], [200, 21]);

test('a pile that was too hot for hours says that its culture may be lost until a person has judged it', () => {
  const played = play(setupOf(), 200, overheated);
  expect(played.stateOf('heat-damage')).toBe('unacknowledged');
  const { condition, next, tone } = played.say();
  expect(condition).toMatch(
    /^Its culture may be lost: the core lay at 60 °C or more for 9\.[2-5] hours, up to 63 °C\.$/,
  );
  expect(next).toContain('smell it and look at it');
  expect(tone).toBe('act');
  expect(played.last?.heat).toEqual([expect.objectContaining({ position: 'core', unjudged: expect.anything() })]);
  const { readiness } = played.last ?? {};
  expect(readiness?.proposal).toBe('smell-and-look');
  expect(readiness?.points.find(({ what }) => what === 'judged-since-overheated')).toMatchObject({ seen: false });
  expect(readiness && plainEnglish(readiness.next)).toContain('may be lost');
});

test('while a pile is that hot it is told as too hot, and its loss the moment that has passed', () => {
  const played = play(setupOf(), 200, overheated);
  const raised = played.events.find(({ kind, arrow }) => kind === 'heat-damage' && arrow === 'raised');
  expect(raised?.hour).toBeGreaterThan(39);
  expect(raised?.hour).toBeLessThan(40);
});

test('a person who smelt or looked ends it, and the batch’s record of its heat stays', () => {
  const noted = [smelt(startMs + 150 * msPerHour)];
  const played = play(setupOf('bran', { noted }), 200, overheated);
  expect(played.stateOf('heat-damage')).toBe('returned-unacknowledged');
  const ended = played.events.find(({ kind, arrow }) => kind === 'heat-damage' && arrow === 'returned');
  expect(ended?.hour).toBeCloseTo(150, 0);
  expect(played.say().condition).not.toContain('lost');
  const point = played.last?.readiness.points.find(({ what }) => what === 'judged-since-overheated');
  expect(point).toMatchObject({ seen: true });
  expect(point && plainEnglish(point.says)).toContain('63.4 °C');
  expect(played.last?.heat[0]?.lossH).toBeGreaterThan(9);
});

test('a word that it is ready, given before it became too hot, does not confirm it', () => {
  const early = startMs + 10 * msPerHour;
  const played = play(setupOf('bran', { confirmedAtMs: early, noted: [smelt(early)] }), 200, overheated);
  expect(played.last?.readiness.proposal).toBe('smell-and-look');
});

test('a probe that lies beside the pile, in the sun, remembers no heat of the pile', () => {
  const core = through([0, 22], [24, 40], [60, 40], [60.2, 20.2], [80, 20.2], [90, 20.2]);
  const played = play(setupOf(), 90, core);
  expect(played.state.positions.core?.out.sinceMs).not.toBeNull();
  const before = played.last?.heat[0]?.peakC;
  for (let hour = 91; hour < 96; hour += 1) {
    played.feed('air', 62, startMs + hour * msPerHour);
    played.feed('core', 62, startMs + hour * msPerHour);
  }
  played.evaluate(startMs + 96 * msPerHour);
  expect(played.last?.heat[0]?.peakC).toBe(before);
});

const notes: [string, Noted['what'], boolean][] = [
  ['a smell', { kind: 'smell', smells: ['rotten'] }, true],
  ['a growth', { kind: 'growth', colour: 'white' }, true],
  ['a word on readiness', { kind: 'readiness', smell: 'doubtful', look: 'good', ready: false }, true],
  ['a squeezed handful', { kind: 'squeeze', feel: 'holds' }, false],
  ['a weighed sample', { kind: 'sample', wetG: 100, dryG: 40 }, false],
];
for (const [note, what, judges] of notes) {
  test(`pastHeat() ${judges ? 'is judged by' : 'asks on after'} ${note}`, () => {
    const heat = remembered([
      [0, 60],
      [9, 60],
      [10, 30],
    ]);
    const past = pastHeat('core', heat, 20 * msPerHour, [{ atMs: 12 * msPerHour, by: null, what }]);
    expect(past.unjudged === null).toBe(judges);
  });
}
