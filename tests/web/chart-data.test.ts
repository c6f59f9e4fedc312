/**
 * Series as lines, bands, table rows, ticks, marks and words.
 */
import { describe, expect, test } from 'vitest';
import type { Bucket, SeriesAnswer } from '../../shared/contracts/series.ts';
import { worded } from '../../shared/messages/in-words.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { gatherMarks } from '../../web/src/charts/act-marks.ts';
import { placeActs } from '../../web/src/charts/act-words.ts';
import {
  bandAt,
  bandOf,
  drawnAhead,
  linesOf,
  otherLines,
  tableOf,
  toLinePoints,
  valueNear,
} from '../../web/src/charts/chart-data.ts';
import { chartSummary } from '../../web/src/charts/chart-summary.ts';
import { lastEnds, placeEnds } from '../../web/src/charts/end-labels.ts';
import { timeTicks, withMidnights } from '../../web/src/charts/time-ticks.ts';
import { chartWords } from '../helpers/words-of-charts.ts';

const minuteMs = 60_000;
const at = (minute: number) => new Date(minute * minuteMs).toISOString();
const bucket = (minute: number, mean = minute): Bucket => ({
  at: at(minute),
  min: mean - 1,
  mean,
  max: mean + 1,
  count: 1,
});

describe('toLinePoints()', () => {
  test('breaks the line where two buckets lie further apart than three usual steps', () => {
    const points = toLinePoints(
      [0, 1, 2, 6, 7].map((minute) => bucket(minute)),
      minuteMs,
    );
    expect(points.map((point) => point.value)).toEqual([0, 1, 2, null, 6, 7]);
    expect(points[3]?.atMs).toBe(4 * minuteMs);
  });
  test('keeps the line over three usual steps exactly', () => {
    const points = toLinePoints(
      [0, 1, 2, 5, 6].map((minute) => bucket(minute)),
      minuteMs,
    );
    expect(points.every((point) => point.value !== null)).toBe(true);
  });
  test('knows a slow probe in small buckets by its rhythm', () => {
    const points = toLinePoints(
      [0, 15, 30, 45].map((minute) => bucket(minute)),
      minuteMs,
    );
    expect(points.every((point) => point.value !== null)).toBe(true);
  });
  test('draws nothing from nothing, and one point from one', () => {
    expect(toLinePoints([], minuteMs)).toEqual([]);
    expect(toLinePoints([bucket(3)], minuteMs)).toEqual([{ atMs: 3 * minuteMs, value: 3 }]);
  });
});

const series: SeriesAnswer = {
  from: at(0),
  to: at(60),
  bucketMs: minuteMs,
  positions: {
    core: { temperatureC: [bucket(0, 40), bucket(1, 41)], humidityPct: [bucket(1, 99)] },
    air: { temperatureC: [bucket(1, 18), bucket(2, 17)] },
  },
  expected: {
    ...worded({ messages: { origin: verbatim('model') } }),
    points: [
      { at: at(0), p10: 30, p50: 35, p90: 40 },
      { at: at(2), p10: 32, p50: 37, p90: 44 },
    ],
  },
  forecast: null,
};

describe('lines and band', () => {
  test('a line for each position that measured the quantity', () => {
    expect(linesOf(series, 'temperatureC').map((line) => line.position)).toEqual(['core', 'air']);
    expect(linesOf(series, 'co2Ppm')).toEqual([]);
  });
  test('the band between two points lies between them, and ends where they end', () => {
    const band = bandOf(series.expected.points);
    expect(bandAt(band, minuteMs)).toMatchObject({ lowC: 31, midC: 36, highC: 42 });
    expect(bandAt(band, 0)).toMatchObject({ lowC: 30 });
    expect(bandAt(band, 3 * minuteMs)).toBeUndefined();
    expect(bandAt(band, -1)).toBeUndefined();
  });
  test('a value is read off the nearest reading, but not across a gap', () => {
    const points = toLinePoints([bucket(0, 40), bucket(10, 50)], minuteMs);
    expect(valueNear(points, 1.4 * minuteMs, 2 * minuteMs)).toBe(40);
    expect(valueNear(points, 5 * minuteMs, 2 * minuteMs)).toBeUndefined();
    expect(valueNear([], 0, minuteMs)).toBeUndefined();
  });
});

describe('tableOf()', () => {
  test('holds every bucket the charts draw, newest first, empty where nothing was read', () => {
    const { columns, rows } = tableOf(series);
    expect(columns).toEqual([
      { position: 'core', quantity: 'temperature' },
      { position: 'air', quantity: 'temperature' },
      { position: 'core', quantity: 'humidity' },
    ]);
    expect(rows.map((row) => row.atMs / minuteMs)).toEqual([2, 1, 0]);
    expect(rows.map((row) => row.cells.map((cell) => cell?.mean ?? null))).toEqual([
      [null, 17, null],
      [41, 18, 99],
      [40, null, null],
    ]);
    expect(rows[1]?.expected?.midC).toBe(36);
  });
});

describe('timeTicks()', () => {
  const utc = { timeZone: 'UTC', hour12: false };
  test('a day is marked every three hours, its midnight by the day', () => {
    const ticks = timeTicks(Date.parse('2031-07-01T10:20:00Z'), Date.parse('2031-07-02T10:20:00Z'), utc, 8);
    expect(ticks.map((tick) => tick.label)).toEqual([
      '12:00',
      '15:00',
      '18:00',
      '21:00',
      'Wed 2 Jul',
      '03:00',
      '06:00',
      '09:00',
    ]);
    expect(ticks.filter((tick) => tick.isDay)).toHaveLength(1);
  });
  test('days are local: marks fall on local midnights on both sides of a change of the clocks', () => {
    // Lisbon puts its clocks back on 2031-10-26 at 01:00 UTC.
    const ticks = timeTicks(
      Date.parse('2031-10-24T12:00:00Z'),
      Date.parse('2031-10-28T12:00:00Z'),
      { timeZone: 'Europe/Lisbon', hour12: false },
      6,
    );
    expect(ticks.map((tick) => new Date(tick.atMs).toISOString())).toEqual([
      '2031-10-24T23:00:00.000Z',
      '2031-10-25T23:00:00.000Z',
      '2031-10-27T00:00:00.000Z',
      '2031-10-28T00:00:00.000Z',
    ]);
    expect(ticks.every((tick) => tick.isDay)).toBe(true);
  });
  test('never more marks than asked for, from ten minutes to ten years', () => {
    for (const spanMs of [10, 90, 1_440, 10_080, 525_600, 5_256_000].map((minutes) => minutes * minuteMs)) {
      const ticks = timeTicks(1_900_000_000_000, 1_900_000_000_000 + spanMs, utc, 8);
      expect(ticks.length).toBeGreaterThan(1);
      expect(ticks.length).toBeLessThanOrEqual(9);
    }
  });
});

describe('words and marks', () => {
  test('acts close together share a mark, those apart do not, those outside have none', () => {
    const acts = [
      { atMs: 105, words: 'watered' },
      { atMs: 100, words: 'turned' },
      { atMs: 107, words: 'watered' },
      { atMs: 500, words: 'covered' },
      { atMs: 1_001, words: 'moved' },
    ];
    expect(gatherMarks(acts, 0, 1_000)).toEqual([
      { atMs: 100, words: 'turned, watered' },
      { atMs: 500, words: 'covered' },
    ]);
  });
  test('a chart in words tells lowest, highest with its time, and last', () => {
    const lines = linesOf(series, 'temperatureC').filter((line) => line.position === 'core');
    expect(chartSummary(lines, (value) => `${value} °C`, { timeZone: 'UTC', hour12: false }, chartWords)).toBe(
      'Core from 40 °C to 41 °C, highest on Thu 1 Jan, 00:01, last 41 °C.',
    );
    expect(chartSummary([], String, { timeZone: 'UTC', hour12: false }, chartWords)).toBe(
      'Nothing was read in this time.',
    );
  });
});

describe('what is written onto a chart', () => {
  const end = (words: string, x: number, y: number) => ({ words, x, y, colour: 'black' });
  const room = { x: 300, endX: 293, top: 10, bottom: 200, gap: 16 };

  test('a name stands at the height of its line, apart from the next, and is joined to its line where it had to move', () => {
    const labels = placeEnds([end('core', 293, 50), end('top', 293, 54), end('air', 293, 150)], room);
    expect(labels.map(({ words, labelY, isJoined }) => [words, labelY, isJoined])).toEqual([
      ['core', 50, false],
      ['top', 66, true],
      ['air', 150, false],
    ]);
  });
  test('a line that ended long before the edge is named where it ended', () => {
    const [early] = placeEnds([end('base', 120, 70)], room);
    expect(early).toMatchObject({ labelX: 126, labelY: 70, isJoined: false });
  });
  test('a place that was also measured by hand is named once, at whatever came last', () => {
    expect(lastEnds([end('core', 280, 40), end('core', 293, 50), end('top', 290, 60)])).toEqual([
      end('core', 293, 50),
      end('top', 290, 60),
    ]);
  });

  test('words of acts stand in two rows, none over another; where there is no room the stroke stands alone', () => {
    const marks = [0, 20, 40, 100].map((x) => ({ x, width: 40 }));
    const placed = placeActs(marks, 0, 300);
    expect(placed.map(({ row }) => row)).toEqual([0, 1, null, 0]);
    const inRow = (row: number) =>
      placed.flatMap((one, index) => (one.row === row ? [{ ...one, ...marks[index], x: one.x }] : []));
    for (const row of [0, 1])
      inRow(row).forEach((one, index, all) => {
        const before = all[index - 1];
        if (before) expect(one.x).toBeGreaterThanOrEqual(before.x + (before.width ?? 0));
      });
  });
  test('near the right end words stand before their mark', () =>
    expect(placeActs([{ x: 280, width: 60 }], 0, 300)).toEqual([{ x: 215, row: 0 }]));

  test('midnights between marks that are days apart have a mark without a name', () => {
    const utc = { timeZone: 'UTC', hour12: false };
    const [fromMs, toMs] = [Date.parse('2031-07-01T10:00:00Z'), Date.parse('2031-07-15T10:00:00Z')];
    const ticks = withMidnights(timeTicks(fromMs, toMs, utc, 3), fromMs, toMs, utc);
    expect(ticks).toHaveLength(14);
    expect(ticks.filter(({ label }) => label !== '')).toHaveLength(timeTicks(fromMs, toMs, utc, 3).length);
  });

  test('humidity is drawn as it is said: never above 100 %', () => {
    const [humidity] = otherLines({ ...series, positions: { core: { humidityPct: [bucket(1, 104), bucket(2, 98)] } } });
    expect(humidity?.lines[0]?.points.map(({ value }) => value)).toEqual([100, 98]);
  });

  test('no more is drawn ahead than was measured, and three hours at least', () => {
    const fan = Array.from({ length: 24 }, (_, hour) => ({
      atMs: (hour + 1) * 60 * minuteMs,
      lowC: 1,
      midC: 2,
      highC: 3,
    }));
    const drawn = (hours: number) => drawnAhead(fan, { from: at(-60 * hours), to: at(0) }).length;
    expect([drawn(1), drawn(12), drawn(300)]).toEqual([3, 12, 24]);
  });
});
