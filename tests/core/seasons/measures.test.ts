import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type AgedCourse, curveDistanceK } from '../../../core/seasons/align.ts';
import { closestBatches, type Laid } from '../../../core/seasons/closest.ts';
import { type Columns, gapLimitMs, hourlyCourse, warmingBeganH } from '../../../core/seasons/course.ts';
import { degreeHoursAboveAir, hoursAbove, hoursTo, hoursWithin, peakOf } from '../../../core/seasons/hours.ts';
import { measureBatch } from '../../../core/seasons/measure-batch.ts';
import { seasonOf } from '../../../core/seasons/season.ts';
import { msPerDay, msPerHour } from '../../../shared/units.ts';
import { setupOf, startMs } from '../helpers.ts';

/** One value an hour from the start on. */
function hourly(values: readonly number[]): Columns {
  return { atMs: values.map((_, hour) => startMs + hour * msPerHour), meanC: values, maxC: values };
}
const level = (tempC: number, hours: number): number[] => new Array(hours + 1).fill(tempC);

test('hoursAbove() counts the part of a straight line above: 45 to 55 °C in an hour is half an hour above 50', () => {
  expect(hoursAbove(hourly([45, 55]), 50)).toBeCloseTo(0.5, 12);
  expect(hoursAbove(hourly([55, 45]), 52)).toBeCloseTo(0.3, 12);
});

test('hoursAbove() does not count a level line at the limit, hoursWithin() counts it at both ends', () => {
  expect(hoursAbove(hourly([50, 50, 50]), 50)).toBe(0);
  expect(hoursWithin(hourly([45, 45, 45]), 35, 45)).toBe(2);
  expect(hoursWithin(hourly([35, 35]), 35, 45)).toBe(1);
});

test('hoursWithin() of a rise from 30 to 50 °C in ten hours and back: 35..45 is half of it', () => {
  const up = Array.from({ length: 11 }, (_, i) => 30 + 2 * i);
  expect(hoursWithin(hourly([...up, ...up.slice(0, 10).reverse()]), 35, 45)).toBeCloseTo(10, 9);
});

test('hours below, within and above add up to the hours measured, whatever was measured', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 10, max: 70 }), { minLength: 2, maxLength: 60 }), (values) => {
      const columns = hourly(values);
      const below = hoursWithin(columns, -100, 40) - hoursWithin(columns, 40, 40);
      expect(below + hoursWithin(columns, 40, 50) + hoursAbove(columns, 50)).toBeCloseTo(values.length - 1, 9);
    }),
    { seed: 6, numRuns: 100 },
  );
});

test('a gap longer than 2.5 usual intervals is not counted; a table of one value a day joins days, not weeks', () => {
  const ten = { atMs: [0, 10, 20, 200, 210].map((min) => min * 60_000), meanC: level(60, 4), maxC: level(60, 4) };
  expect(hoursAbove(ten, 50)).toBeCloseTo(0.5, 12);
  expect(gapLimitMs(ten.atMs)).toBe(75 * 60_000);
  const daily = { atMs: [0, 1, 2, 6, 7].map((day) => day * msPerDay), meanC: level(60, 4), maxC: level(60, 4) };
  expect(hoursAbove(daily, 50)).toBeCloseTo(72, 9);
  expect(gapLimitMs(daily.atMs)).toBe(36 * msPerHour);
});

test('hoursTo() takes the first value at or above, peakOf() the first of the highest', () => {
  expect(hoursTo(hourly([20, 39.9, 40, 41]), startMs, 40)).toBe(2);
  expect(hoursTo(hourly([20, 39.9]), startMs, 40)).toBeNull();
  expect(peakOf(hourly([20, 47, 47, 30]), startMs)).toEqual({ peakC: 47, peakAfterH: 1 });
});

test('degreeHoursAboveAir(): core 30, 40, 40 over air 20 is 15 + 20; a core below the air counts nothing', () => {
  expect(degreeHoursAboveAir([30, 40, 40], [20, 20, 20])).toBe(35);
  expect(degreeHoursAboveAir([10, 10], [20, 20])).toBe(0);
  expect(degreeHoursAboveAir([30, null, 30], [20, 20, 20])).toBeNull();
});

test('hourlyCourse() stands at whole hours of age, straight between readings at half past', () => {
  const half = { atMs: [0.5, 1.5, 2.5].map((h) => startMs + h * msPerHour), meanC: [20, 30, 20], maxC: [20, 30, 20] };
  expect(hourlyCourse(half, startMs, 4)).toEqual([null, 25, 25, null, null]);
});

test('warmingBeganH(): 4 K above the air and 1 K more than six hours before; air alone getting warm is not enough', () => {
  const rise = [20, 20, 20, 20, 20, 21, 22, 23, 24, 25, 27];
  expect(warmingBeganH(rise, level(20, 10))).toBe(8);
  expect(warmingBeganH(rise, level(26, 10))).toBeNull();
});

test('measureBatch() of a day at 42 °C over air of 20 °C, by hand', () => {
  const setup = setupOf('bran', {
    acts: [
      { kind: 'turned', atMs: startMs + 5 * msPerHour },
      { kind: 'watered', atMs: startMs + 6 * msPerHour, amountL: 4 },
      { kind: 'watered', atMs: startMs + 7 * msPerHour, amountL: 3 },
      { kind: 'turned', atMs: startMs + 40 * msPerHour },
    ],
    confirmedAtMs: startMs + 12 * msPerHour,
  });
  const measures = measureBatch({
    setup,
    untilMs: startMs + 24 * msPerHour,
    ended: true,
    core: hourly(level(42, 24)),
    air: hourly(level(20, 24)),
    alarms: [
      { kind: 'drying', fromMs: startMs - msPerHour, toMs: startMs + 2 * msPerHour },
      { kind: 'drying', fromMs: startMs + 20 * msPerHour, toMs: null },
      { kind: 'chilled', fromMs: startMs + 30 * msPerHour, toMs: null },
    ],
  });
  expect(measures).toMatchObject({
    hoursTo40: 0,
    peakC: 42,
    peakAfterH: 0,
    comfortH: 24,
    above50H: 0,
    above60H: 0,
    degreeH: 22 * 24,
    moistureStartFrac: 0.6,
    waterL: 7,
    turns: 1,
    alarmH: 6,
    readyDays: 0.5,
    airMeanC: 20,
    lengthDays: 1,
    measuredFrac: 1,
    everyH: 1,
    alarms: [{ kind: 'drying', count: 2, hours: 6 }],
  });
  // γ(42) of the culture's set (12, 40, 60) is about 0.99 and Haug's moisture factor at 60 % is 0.972; 24 whole hours close.
  expect(measures.activityH).toBeGreaterThan(22);
  expect(measures.activityH).toBeLessThan(24);
});

test('measureBatch() of a batch without a probe has no figures of heat, but its hands', () => {
  const none = { atMs: [], meanC: [], maxC: [] };
  const measures = measureBatch({
    setup: setupOf('soil'),
    untilMs: startMs + msPerDay,
    ended: false,
    core: none,
    air: none,
    alarms: [],
  });
  expect(measures).toMatchObject({ peakC: null, comfortH: null, activityH: null, readyDays: null, turns: 0 });
});

const course = (coreC: number[], warmingAfterH: number | null = null): AgedCourse => ({
  coreC,
  airC: level(20, coreC.length - 1),
  warmingAfterH,
});

test('curveDistanceK() of two level curves 3 K apart is 3; under twelve shared hours it is unknown', () => {
  expect(curveDistanceK(course(level(30, 24)), course(level(33, 24)), 'age', 24)).toBeCloseTo(3, 12);
  expect(curveDistanceK(course(level(30, 24)), course(level(33, 10)), 'age', 24)).toBeNull();
});

test('curveDistanceK() by warming: a batch that woke ten hours later but went the same lies at 0', () => {
  const hump = Array.from({ length: 60 }, (_, hour) => 20 + 20 * Math.sin(Math.min(Math.PI, hour / 15)));
  const late = [...level(20, 9), ...hump];
  expect(curveDistanceK(course(hump, 0), course(late, 10), 'warming', 60)).toBeCloseTo(0, 12);
  expect(curveDistanceK(course(hump, 0), course(late, 10), 'age', 60)).toBeGreaterThan(3);
  expect(curveDistanceK(course(hump, null), course(late, 10), 'warming', 60)).toBeNull();
});

test('closestBatches() puts the like one first: the same curve laid deeper lies 4 K away for 20 cm', () => {
  const laid = (id: string, tempC: number, depthM: number): Laid => ({
    ...course(level(tempC, 48)),
    id,
    recipe: { material: 'wheat-bran', depthM, cover: 'breathable', moistureFrac: 0.6 },
  });
  const found = closestBatches(
    laid('now', 40, 0.2),
    [laid('deep', 40, 0.4), laid('warm', 43, 0.2), laid('now', 40, 0.2)],
    48,
  );
  expect(found.map(({ id }) => id)).toEqual(['warm', 'deep']);
  expect(found[0]?.curveK).toBeCloseTo(3, 9);
  expect(found[1]?.conditionK).toBeCloseTo(4, 9);
});

const north = { latitude: 41, timeZone: 'UTC' };
const south = { latitude: -35, timeZone: 'UTC' };
const seasons: [string, number, typeof north, string][] = [
  ['last of May, north', Date.UTC(2031, 4, 31, 23), north, 'spring 2031'],
  ['first of June, north', Date.UTC(2031, 5, 1), north, 'summer 2031'],
  ['first of June, south', Date.UTC(2031, 5, 1), south, 'winter 2031'],
  ['last of November, north', Date.UTC(2031, 10, 30), north, 'autumn 2031'],
  ['first of December, north', Date.UTC(2031, 11, 1), north, 'winter 2031/32'],
  ['January, north', Date.UTC(2032, 0, 15), north, 'winter 2031/32'],
  ['January, south', Date.UTC(2032, 0, 15), south, 'summer 2031/32'],
  ['end of a century', Date.UTC(2099, 11, 15), south, 'summer 2099/00'],
];
for (const [when, atMs, place, name] of seasons) {
  test(`seasonOf() ${when}: ${name}`, () => expect(seasonOf(atMs, place).name).toBe(name));
}

test('seasonOf() goes by the wall clock of the site: it is June at Auckland while UTC still has May', () => {
  const atMs = Date.UTC(2031, 4, 31, 13);
  expect(seasonOf(atMs, { latitude: -37, timeZone: 'Pacific/Auckland' }).name).toBe('winter 2031');
  expect(seasonOf(atMs, { latitude: -37, timeZone: 'UTC' }).name).toBe('autumn 2031');
});

const watering = (amountL?: number) => ({
  kind: 'watered' as const,
  atMs: startMs + msPerHour,
  ...(amountL !== undefined && { amountL }),
});
for (const [what, acts, waterL] of [
  ['no watering was written down', [], 0],
  ['each has its litres', [watering(4), watering(3)], 7],
  ['one has none, and a total of the rest would mislead', [watering(4), watering()], null],
] as const) {
  test(`measureBatch() tells the water given where ${what}`, () => {
    const heat = hourly(level(42, 24));
    const untilMs = startMs + 24 * msPerHour;
    const story = { setup: setupOf('bran', { acts }), untilMs, ended: true, core: heat, air: heat, alarms: [] };
    expect(measureBatch(story).waterL).toBe(waterL);
  });
}
