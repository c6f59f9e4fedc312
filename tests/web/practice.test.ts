/**
 * The sums behind the practice page: the state of a run, what may be done, nights, series, and the debrief's drawings.
 */
import { describe, expect, test } from 'vitest';
import type { AlarmSummary } from '../../shared/contracts/piles.ts';
import { formatQuantity, plainReader } from '../../shared/messages/format.ts';
import { pagePracticeTexts } from '../../shared/messages/made/en/page-practice.ts';
import { message, verbatim } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { msPerHour } from '../../shared/units.ts';
import { practiceScenarios } from '../../simulator/practice/practice-scenarios.ts';
import type { TruthRow } from '../../simulator/practice/record.ts';
import { coldNights } from '../../simulator/practice/scenarios/cold-nights.ts';
import { hotWeek } from '../../simulator/practice/scenarios/hot-week.ts';
import type { PracticeReading } from '../../simulator/practice/scenarios/practice-scenario.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { type Offer, offersFor, type PileSeen } from '../../web/src/features/practice/act-offers.ts';
import { actWords } from '../../web/src/features/practice/act-words.ts';
import { readScores } from '../../web/src/features/practice/best-score.ts';
import {
  columnsOf,
  depthOf,
  hotRegions,
  hotSpan,
  knotsOf,
  linePath,
  numberMarks,
  regionPath,
  roundMarks,
  scaleOf,
} from '../../web/src/features/practice/cut-drawing.ts';
import { midnightsOf, nightsOf } from '../../web/src/features/practice/night-line.ts';
import type { Answered } from '../../web/src/features/practice/practice-messages.ts';
import { practiceSeries } from '../../web/src/features/practice/practice-series.ts';
import type { Frame } from '../../web/src/features/practice/practice-session.ts';
import { daysOf, minutesOf, practiceReader, whenOf } from '../../web/src/features/practice/practice-time.ts';
import { hoursToMorning, newRun, type Run, type RunEvent, stepRun } from '../../web/src/features/practice/run-state.ts';
import {
  parting,
  saidByHour,
  saidPositions,
  tellingHour,
  truePositions,
  widestGap,
} from '../../web/src/features/practice/said-and-so.ts';

const startMs = Date.UTC(2031, 5, 2, 8);
const words = pageWords(pagePracticeTexts, plainReader(startMs), formatQuantity);

describe('stepRun()', () => {
  const frame = { diary: [] } as unknown as Frame;
  const alarm = { id: 'overheating', kind: 'overheating', todo: 'Turn it.' } as AlarmSummary;
  const answered = (more: Partial<Answered> = {}): RunEvent => ({
    kind: 'answered',
    answered: { frame, ...more },
  });
  const act = { kind: 'turn' } as const;
  const caution = message('practice.caution.open');
  const answer = { act, found: undefined, caution, done: true } as NonNullable<Answered['answer']>;
  const tending: Run = { ...newRun('hot-week', 1), stage: 'tending', frame };
  const flowing: Run = { ...tending, flowing: true, busy: true };
  const debrief = {} as NonNullable<Answered['debrief']>;

  const rows: [string, Run, RunEvent, Partial<Run>][] = [
    ['time cannot run before the pile lies there', newRun('x', 1), { kind: 'let-run' }, { flowing: false }],
    ['the first frame opens the run', newRun('x', 1), answered(), { stage: 'tending', busy: false }],
    ['a question makes it busy', tending, { kind: 'asked' }, { busy: true }],
    ['a frame without news lets time flow on', flowing, answered(), { flowing: true, busy: false }],
    ['a new warning stops the clock', flowing, answered({ raised: [alarm] }), { flowing: false, stoppedBy: alarm }],
    ['an empty list of warnings does not', flowing, answered({ raised: [] }), { flowing: true, stoppedBy: null }],
    [
      'an act is answered by what was done, what was found and the caution',
      tending,
      answered({ answer }),
      { answer: { act, found: undefined, caution } },
    ],
    [
      'an act that was refused is answered as not done',
      tending,
      answered({ answer: { ...answer, done: false, found: message('practice.refused.no-tool') } }),
      { answer: { act: null, found: message('practice.refused.no-tool'), caution } },
    ],
    [
      'an act puts the warning that stopped the clock out of sight',
      { ...tending, stoppedBy: alarm },
      answered({ answer }),
      { stoppedBy: null },
    ],
    ['an acknowledgement leaves it in sight', { ...tending, stoppedBy: alarm }, answered(), { stoppedBy: alarm }],
    [
      'letting time run clears what was said',
      { ...tending, stoppedBy: alarm, answer: { act, found: undefined, caution: undefined } },
      { kind: 'let-run' },
      { flowing: true, stoppedBy: null, answer: null },
    ],
    ['holding stops the clock', flowing, { kind: 'hold' }, { flowing: false }],
    ['the pace changes while time flows', flowing, { kind: 'pace', pace: 4 }, { pace: 4, flowing: true }],
    ['a debrief ends the run', flowing, answered({ debrief }), { stage: 'over', flowing: false, debrief }],
    ['a run that is over does not run on', { ...tending, stage: 'over' }, { kind: 'let-run' }, { flowing: false }],
    [
      'a broken worker is shown',
      flowing,
      { kind: 'broke', fault: 'no memory' },
      { stage: 'failed', fault: 'no memory' },
    ],
    ['a worker that did not load is shown', flowing, { kind: 'broke', fault: null }, { stage: 'failed', fault: null }],
  ];
  for (const [name, run, event, expected] of rows) {
    test(`stepRun(): ${name}`, () => expect(stepRun(run, event)).toMatchObject(expected));
  }
});

describe('time', () => {
  const rows: [string, number, number][] = [
    ['06:00', 1, 6],
    ['06:40: the morning is nearly here, so the next one is meant', 24 + 20 / 60, 6 + 40 / 60],
    ['07:00: a whole day', 24, 7],
    ['22:00', 9, 22],
  ];
  for (const [name, hours, hourOfDay] of rows) {
    test(`hoursToMorning() at ${name}`, () => {
      expect(hoursToMorning(Date.UTC(2031, 5, 2) + hourOfDay * msPerHour)).toBeCloseTo(hours, 6);
    });
  }
  test('practiceReader() counts days from the first midnight, the same everywhere', () => {
    const reader = { ...practiceReader(startMs), hour12: false };
    const when = (hours: number) => words.text('page-practice.when.start', whenOf(startMs + hours * msPerHour, reader));
    expect([0, 15, 16].map(when)).toEqual(['Day 1, 08:00', 'Day 1, 23:00', 'Day 2, 00:00']);
  });
  test.each([
    [24, 'One day, about two minutes of yours.'],
    [36, 'One and a half days, about two minutes of yours.'],
    [92, 'Three and a half days, about two minutes of yours.'],
    [132, 'Five and a half days, about two to three minutes of yours.'],
    [144, 'Six days, about two to three minutes of yours.'],
    [240, 'Ten days, about three to four minutes of yours.'],
    [312, '13 days, about three to four minutes of yours.'],
  ])('a run of %i h is said to half days: %s', (hours, says) => {
    expect(words.text('page-practice.list.length', { ...daysOf(hours), minutes: minutesOf(hours) })).toBe(says);
  });
  test('nightsOf() a run from 08:00 to 08:00 of the day after next: two nights of nine hours', () => {
    expect(nightsOf(startMs, 48)).toEqual([
      { fromH: 13, toH: 22 },
      { fromH: 37, toH: 46 },
    ]);
  });
  test('nightsOf() cuts a night at both ends of the run', () => {
    expect(nightsOf(Date.UTC(2031, 5, 2, 3), 19)).toEqual([
      { fromH: 0, toH: 3 },
      { fromH: 18, toH: 19 },
    ]);
  });
  test('midnightsOf() a run from 08:00', () => {
    expect(midnightsOf(startMs, 48)).toEqual([16, 40]);
    expect(midnightsOf(startMs, 16)).toEqual([]);
  });
});

describe('offersFor()', () => {
  const seen: PileSeen = { depthM: 0.33, cover: 'breathable', shed: 'open', inShade: false, fanOff: false };
  const offered = (scenario: typeof hotWeek, change: Partial<PileSeen> = {}) =>
    offersFor(scenario, { ...seen, ...change }).flatMap(({ offers }) => offers);
  const ids = (offers: readonly Offer[]) => offers.map(({ id }) => id);

  test('what is not covered cannot be uncovered, and a cover that lies is not offered again', () => {
    expect(ids(offered(hotWeek))).toContain('uncover');
    expect(ids(offered(hotWeek))).not.toContain('cover-breathable');
    expect(ids(offered(hotWeek))).toContain('cover-closed');
    expect(ids(offered(hotWeek, { cover: 'open' }))).not.toContain('uncover');
  });
  test('spreading is always thinner, heaping always deeper, each by what one can see', () => {
    const seenKinds = new Set<string>();
    for (const depthM of [0.1, 0.2, 0.33, 0.5]) {
      const offers = offered(hotWeek, { depthM });
      for (const { choices } of offers) {
        for (const act of choices) {
          seenKinds.add(act.kind);
          // What one can see of a change: a centimetre at the least.
          if (act.kind === 'spread') expect(depthM - act.depthM).toBeGreaterThanOrEqual(0.01);
          if (act.kind === 'heap') expect(act.depthM - depthM).toBeGreaterThanOrEqual(0.01);
        }
      }
    }
    expect([...seenKinds]).toEqual(expect.arrayContaining(['spread', 'heap']));
  });
  test('a bed as thin as can be is not offered to be spread', () => {
    expect(ids(offered(hotWeek, { depthM: 0.08 }))).not.toContain('spread');
  });
  test('the usual amount is one of the choices', () => {
    for (const scenario of practiceScenarios) {
      for (const { choices, usual } of offered(scenario)) expect(choices[usual]).toBeDefined();
    }
  });
  test('a shed is closed or aired, whichever it is not', () => {
    expect(ids(offered(coldNights))).toContain('close-shed');
    expect(ids(offered(coldNights, { shed: 'closed' }))).toContain('open-shed');
    expect(ids(offered(coldNights, { shed: 'closed' }))).not.toContain('close-shed');
  });
  test('every probe in the pile may be pushed back, so that the offer gives nothing away', () => {
    const scenario = practiceScenarios.find(({ id }) => id === 'probe-out');
    expect(scenario && ids(offered(scenario)).filter((id) => id.startsWith('reseat'))).toEqual([
      'reseat-core',
      'reseat-top',
      'reseat-base',
    ]);
  });
  test('every example of every scenario has words to do and words done', () => {
    for (const { example } of practiceScenarios) {
      for (const { act } of example) {
        expect(actWords('do', act, words)).toMatch(/^[A-Z]/);
        expect(actWords('done', act, words)).toMatch(/^[A-Z]/);
      }
    }
  });
});

describe('practiceSeries()', () => {
  const reading = (minutes: number, value: number): PracticeReading => ({
    probe: 'core',
    position: 'core',
    quantity: 'temperature',
    value,
    atMs: startMs + minutes * 60_000,
  });
  test('gathers into buckets of whole reports, with least, mean and most', () => {
    const series = practiceSeries(
      [reading(0, 20), reading(10, 22), reading(20, 27)],
      null,
      startMs,
      startMs + 2 * msPerHour,
      6,
    );
    expect(series.bucketMs).toBe(20 * 60_000);
    expect(series.positions.core?.temperatureC?.map(({ min, mean, max, count }) => [min, mean, max, count])).toEqual([
      [20, 21, 22, 2],
      [27, 27, 27, 1],
    ]);
    expect(series.expected.points).toEqual([]);
  });
  test('shows the band no further than the time that has passed', () => {
    const band = {
      fromMs: startMs,
      stepMs: msPerHour,
      p10C: [18, 19, 20, 21],
      p50C: [20, 21, 22, 23],
      p90C: [22, 23, 24, 25],
      origin: verbatim('a test'),
    };
    const { expected } = practiceSeries([], band, startMs, startMs + 2 * msPerHour, 100);
    expect(expected.points.map(({ p50 }) => p50)).toEqual([20, 21, 22]);
    expect(expected.origin).toBe('a test');
  });
});

/** A row of the truth with layers from the top down, each 0.1 m. */
function row(afterH: number, tempsC: readonly number[], more: Partial<TruthRow> = {}): TruthRow {
  const layers = tempsC.map((tempC) => ({
    tempC,
    moistureFrac: 0.6,
    freeAirFrac: 0.5,
    oxygenFrac: 0.2,
    aliveFrac: 1,
    thicknessM: 0.1,
  }));
  return {
    afterH,
    atMs: startMs + afterH * msPerHour,
    airC: 20,
    hottestC: Math.max(...tempsC),
    coreC: tempsC[Math.floor(tempsC.length / 2)] ?? 0,
    leastOxygenFrac: 0.2,
    workFrac: 0,
    layers,
    surfaceC: 20,
    depthM: 0.1 * tempsC.length,
    massKg: 100,
    moistureFrac: 0.6,
    aliveFrac: 1,
    ...more,
  };
}
const coreSays = (afterH: number, value: number, quantity: PracticeReading['quantity'] = 'temperature') => ({
  probe: 'core',
  position: 'core' as const,
  quantity,
  value,
  atMs: startMs + afterH * msPerHour,
});

describe('what the probes said and what was so', () => {
  const said = (...run: Parameters<typeof parting>) => parting(...run).map((one) => plainEnglish(one));
  const truth = [row(0, [20, 20, 20]), row(1, [25, 40, 30]), row(2, [25, 46, 30]), row(3, [25, 46, 30])];

  test('saidByHour() takes the last value said by each hour, and null once a probe has been quiet for an hour', () => {
    const said = saidByHour([coreSays(0, 20), coreSays(0.9, 39), coreSays(1, 40)], truth, 'core', 'temperature');
    expect(said.map(({ value }) => value)).toEqual([20, 40, null, null]);
  });
  test('saidByHour() of a probe that is not there is null throughout', () => {
    expect(saidByHour([coreSays(0, 20)], truth, 'edge', 'temperature').every(({ value }) => value === null)).toBe(true);
  });
  test('widestGap() finds the hour at which the core probe lay in the air', () => {
    const readings = [coreSays(0, 20), coreSays(1, 40), coreSays(2, 21), coreSays(3, 24)];
    expect(widestGap(truth, readings)).toEqual({ afterH: 2, saidC: 21, wasC: 46 });
    expect(tellingHour(truth, readings)).toBe(2);
    expect(said(truth, readings)[0]).toBe('At hour 2 the core probe said 21 °C, and the core was at 46 °C.');
  });
  test('tellingHour() is the hottest hour when the probe was right', () => {
    const readings = [coreSays(0, 20), coreSays(1, 40), coreSays(2, 45), coreSays(3, 46)];
    expect(tellingHour(truth, readings)).toBe(2);
    expect(said(truth, readings)[0]).toMatch(/never more than 3 °C away/);
  });
  test('parting() tells of drying that humidity did not show, and of missing air', () => {
    const drying = [
      row(0, [20, 20, 20]),
      row(7, [20, 20, 20], { moistureFrac: 0.5, leastOxygenFrac: 0.01 }),
      row(8, [20, 20, 20], { moistureFrac: 0.4, aliveFrac: 0.7 }),
    ];
    const words = said(drying, [
      coreSays(0, 20),
      coreSays(7, 20),
      coreSays(7, 99.6, 'humidity'),
      coreSays(8, 103, 'humidity'),
    ]).join(' ');
    expect(words).toContain('100 % or more from the sixth hour on, while the moisture fell from 60 % to 40 %');
    expect(words).toContain('at hour 7 the worst layer had 1 % of oxygen left');
    expect(words).toContain('70 % of the culture that grew was alive at the end');
  });
  test('truePositions() takes top, middle and base from the layers, from the top down', () => {
    const { top, core, base, air } = truePositions(row(5, [30, 40, 50, 45, 35]));
    expect([top, core, base, air].map((one) => one?.temperatureC)).toEqual([30, 50, 35, 20]);
    expect(core?.moisturePct).toBeCloseTo(60, 6);
  });
  test('saidPositions() knows nothing of what was said later, and marks a probe silent after an hour', () => {
    const readings = [coreSays(0, 20), coreSays(1, 40), coreSays(1, 99, 'humidity'), coreSays(2, 46)];
    expect(saidPositions(readings, startMs + 1.5 * msPerHour).core).toMatchObject({
      temperatureC: 40,
      humidityPct: 99,
      silent: false,
    });
    expect(saidPositions(readings, startMs + 3 * msPerHour).core).toMatchObject({ temperatureC: 46, silent: true });
  });
});

describe('the pile cut open', () => {
  const same = scaleOf(0, 1, 0, 1);

  test('knotsOf() puts layers at their heights above the ground, and depthOf() adds them up', () => {
    const cool = row(0, [30, 50, 40]);
    expect(knotsOf(cool).map(({ heightM, tempC }) => [Number(heightM.toFixed(3)), tempC])).toEqual([
      [0.05, 40],
      [0.15, 50],
      [0.25, 30],
    ]);
    expect(depthOf(cool)).toBeCloseTo(0.3, 9);
  });
  test('hotSpan() crosses the limit between two layers in proportion', () => {
    // From 40 °C at 0.05 m to 60 °C at 0.15 m the limit of 50 °C lies half way, at 0.10 m; above, 60 to 40 again: 0.20 m.
    const span = hotSpan(row(0, [40, 60, 40]), 50);
    expect(span?.bottomM).toBeCloseTo(0.1, 9);
    expect(span?.topM).toBeCloseTo(0.2, 9);
  });
  test('hotSpan() reaches the skin and the ground where the outermost layers are hot', () => {
    const span = hotSpan(row(0, [60, 60, 60]), 50);
    expect(span?.bottomM).toBe(0);
    expect(span?.topM).toBeCloseTo(0.3, 9);
  });
  test('hotSpan() at the limit itself is not above it', () => {
    expect(hotSpan(row(0, [50, 50, 50]), 50)).toBeUndefined();
    expect(hotSpan(row(0, [50, 50.1, 50]), 50)).toBeDefined();
  });
  test('hotRegions() makes one region of hours in a row, two when it cooled between', () => {
    const hot = (afterH: number) => row(afterH, [40, 60, 40]);
    const cool = (afterH: number) => row(afterH, [40, 45, 40]);
    const regions = hotRegions([cool(0), hot(1), hot(2), cool(3), hot(4)], 50);
    expect(regions.map(({ edge }) => edge.map(({ afterH }) => afterH))).toEqual([[1, 2], [4]]);
  });
  test('regionPath() of a single hour is half an hour wide to either side', () => {
    const [region] = hotRegions([row(4, [40, 60, 40])], 50);
    expect(region && regionPath(region, same, scaleOf(0, 1, 0, 100))).toBe('M3.5 20.0L4.5 20.0L4.5 10.0L3.5 10.0Z');
  });
  test('columnsOf() keeps to the most it may draw, and leaves no hour between two columns', () => {
    const truth = Array.from({ length: 145 }, (_, i) => row(i, [20, 20, 20]));
    for (const most of [50, 144, 500]) {
      const columns = columnsOf(truth, most);
      expect(columns.length).toBeLessThanOrEqual(most);
      expect(columns[0]?.fromH).toBe(0);
      expect(columns.at(-1)?.toH).toBe(144);
      expect(columns.slice(1).map(({ fromH }) => fromH)).toEqual(columns.slice(0, -1).map(({ toH }) => toH));
    }
  });
  test('linePath() breaks where nothing was said', () => {
    const points = [0, 1, 2, 3].map((afterH) => ({ afterH, value: afterH === 1 ? null : afterH }));
    expect(linePath(points, same, same)).toBe('M0.0 0.0M2.0 2.0L3.0 3.0');
  });
  test('numberMarks() tells acts close together at one mark, the others each at their own', () => {
    const x = scaleOf(0, 100, 0, 200);
    expect(numberMarks([1, 1, 2, 30, 60, 61], x, 26)).toEqual([
      { x: 2, words: '1–3' },
      { x: 60, words: '4' },
      { x: 120, words: '5–6' },
    ]);
    expect(numberMarks([], x, 26)).toEqual([]);
  });
  test('roundMarks() stand within the axis', () => {
    expect(roundMarks(0, 0.34, 0.2)).toEqual([0, 0.2]);
    expect(roundMarks(5, 15, 20)).toEqual([]);
  });
});

describe('readScores()', () => {
  test('takes what was kept', () => expect(readScores('{"hot-week":61}')).toEqual({ 'hot-week': 61 }));
  for (const bad of [null, '', 'no JSON', '[]', '{"hot-week":"61"}', '{"hot-week":700}']) {
    test(`takes ${JSON.stringify(bad)} for nothing`, () => expect(readScores(bad)).toEqual({}));
  }
});
