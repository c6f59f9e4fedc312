import fc from 'fast-check';
import { cumulativeStdNormalProbability, mean, quantile, standardDeviation } from 'simple-statistics';
import { expect, test } from 'vitest';
import {
  dampedRise,
  keepForecast,
  type OwnRecord,
  risesByWay,
  scoreRecord,
  startRecord,
  ways,
  weighWays,
  widening,
} from '../../../core/forecast/own-record.ts';
import type { PileNow } from '../../../core/forecast/pile-now.ts';
import { normalShare, sortOrder, weightedMean, weightedQuantile, weightedSd } from '../../../core/forecast/weighted.ts';

function pileAt(hour: number, endC: (hour: number) => number | null, quietH = Number.POSITIVE_INFINITY): PileNow {
  const seen = (at: number): number | null => (at < 0 || at > hour ? null : endC(at));
  const nowC = endC(hour) ?? 0;
  return {
    seen,
    hour,
    nowC,
    quietH,
    atMs: 0,
    airC: 20,
    depthM: 0.3,
    shallow: false,
    soil: false,
    limitC: 50,
    workPerDay: 0,
    workDone: 0,
  };
}

function waysOf(pile: PileNow, corrected: number, aheadH: number): number[] {
  const into = new Float64Array(ways);
  risesByWay(into, corrected, pile, aheadH);
  return Array.from(into);
}

function weightsOf(record: OwnRecord): number[] {
  const into = new Float64Array(ways);
  weighWays(into, record);
  return Array.from(into);
}

/** A pile looked at each hour, its corrected members foretelling `foretoldK` for 12 h and half of it for 6 h. */
function live(hours: number, endC: (hour: number) => number, foretoldK: number, quietH?: (hour: number) => number) {
  const record = startRecord();
  for (let hour = 0; hour < hours; hour += 1) {
    const pile = pileAt(hour, endC, quietH?.(hour));
    scoreRecord(record, pile);
    const told = (aheadH: number, riseK: number) => ({ byWayK: waysOf(pile, riseK, aheadH), riseK, halfK: 1 });
    keepForecast(record, { hour, nowC: pile.nowC, ahead: [told(6, foretoldK / 2), told(12, foretoldK)] });
  }
  return record;
}

test('dampedRise() of half a degree an hour is 4.95 K in 12 h, and never more than 16.2 K', () => {
  // 0.5 · 0.97 (1 − 0.97^12) / 0.03, worked by hand: 0.97^12 = 0.69384.
  expect(dampedRise(0.5, 12)).toBeCloseTo(4.9496, 3);
  expect(dampedRise(0.5, 10_000)).toBeCloseTo(16.1667, 3);
  expect(dampedRise(0, 12)).toBe(0);
});

const rows: [string, PileNow, number[]][] = [
  // corrected 2 K; none; 3 h trend; 6 h trend; day before
  ['a steady rise', pileAt(40, (hour) => 20 + 0.5 * hour), [2, 0, 4.95, 4.95, 6]],
  ['a hand 3 h ago', pileAt(40, (hour) => 20 + 0.5 * hour, 3), [2, 0, 4.95, 0, 0]],
  ['a hand just short of 3 h ago', pileAt(40, (hour) => 20 + 0.5 * hour, 2.99), [2, 0, 0, 0, 0]],
  ['a hand 24 h ago', pileAt(40, (hour) => 20 + 0.5 * hour, 24), [2, 0, 4.95, 4.95, 6]],
  ['a gap 24 h ago', pileAt(40, (hour) => (hour === 16 ? null : 20 + 0.5 * hour)), [2, 0, 4.95, 4.95, 0]],
  ['the first hour', pileAt(0, () => 20), [2, 0, 0, 0, 0]],
];
for (const [name, pile, wanted] of rows) {
  test(`risesByWay() after ${name}`, () => {
    const told = waysOf(pile, 2, 12);
    for (const [way, value] of wanted.entries()) expect(told[way]).toBeCloseTo(value, 2);
  });
}

test('weighWays() begins with the corrected members, 1 to 0.3 for all others together', () => {
  expect(weightsOf(startRecord())[0]).toBeCloseTo(1 / 1.3, 6);
});

test('weighWays() comes to trust the trend of a pile that keeps its pace from the start while the members foretell nothing', () => {
  const [members = 0, still = 0, trend3 = 0, trend6 = 0] = weightsOf(live(36, (hour) => 20 + 0.3 * hour, 0));
  expect(trend3 + trend6).toBeGreaterThan(0.7);
  expect(members + still).toBeLessThan(0.1);
});

test('weighWays() comes to trust the day before of a bed that goes with the sun', () => {
  const weights = weightsOf(live(120, (hour) => 25 + 5 * Math.sin((2 * Math.PI * hour) / 24), 0));
  expect(weights[4]).toBeGreaterThan(0.9);
});

test('weighWays() stays with members that are right', () => {
  expect(weightsOf(live(72, (hour) => 20 + 0.3 * hour, 3.6))[0]).toBeGreaterThan(0.9);
});

test('scoreRecord() scores no forecast over which a hand was on the pile', () => {
  const busy = live(
    72,
    (hour) => 20 + 0.3 * hour,
    0,
    (hour) => hour % 6,
  );
  expect(weightsOf(busy)).toEqual(weightsOf(startRecord()));
  expect(widening(busy)).toBe(1);
});

const widths: [string, number, number, number, number][] = [
  // errors, counted, at least, at most
  ['nothing counted', 0, 0, 1, 1],
  ['as wrong as usual', 30, 30, 1, 1],
  ['never wrong', 0, 60, 0.5, 0.5],
  ['half as wrong as usual', 30, 60, 0.7, 0.75],
  ['wrong threefold', 180, 60, 1.89, 2],
];
for (const [name, errors, counted, least, most] of widths) {
  test(`widening() of a pile ${name}`, () => {
    const widen = widening({ ...startRecord(), errors, counted });
    expect(widen).toBeGreaterThanOrEqual(least);
    expect(widen).toBeLessThanOrEqual(most);
  });
}

test('keepForecast() keeps twelve hours and survives JSON', () => {
  const record = live(200, (hour) => 20 + Math.sin(hour), 1);
  expect(record.made.length).toBe(12);
  expect(JSON.parse(JSON.stringify(record))).toEqual(record);
});

test('scoreRecord() never gives a weight that is no share, whatever came', () => {
  const temps = fc.array(fc.double({ min: -40, max: 125, noNaN: true }), { minLength: 2, maxLength: 80 });
  fc.assert(
    fc.property(temps, fc.double({ min: -50, max: 50, noNaN: true }), (ends, foretoldK) => {
      const record = live(ends.length, (hour) => ends[hour] ?? 0, foretoldK);
      const weights = weightsOf(record);
      expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9);
      for (const weight of weights) expect(weight >= 0 && weight <= 1).toBe(true);
      expect(widening(record)).toBeGreaterThanOrEqual(0.5);
      expect(widening(record)).toBeLessThanOrEqual(2);
    }),
  );
});

test('weighted statistics agree with simple-statistics, a whole weight being so many equal values', () => {
  const sample = fc.array(fc.tuple(fc.integer({ min: -20, max: 80 }), fc.integer({ min: 1, max: 5 })), {
    minLength: 10,
    maxLength: 60,
  });
  fc.assert(
    fc.property(sample, fc.constantFrom(0.1, 0.5, 0.9), (pairs, share) => {
      const count = pairs.length;
      const total = pairs.reduce((sum, [, times]) => sum + times, 0);
      const values = Float64Array.from(pairs, ([value]) => value);
      const weights = Float64Array.from(pairs, ([, times]) => times / total);
      const order = Int32Array.from(pairs, (_, rank) => rank);
      const drawnOut = pairs.flatMap(([value, times]) => new Array<number>(times).fill(value));
      sortOrder(order, values, count);
      expect(weightedMean(values, weights, count)).toBeCloseTo(mean(drawnOut), 8);
      expect(weightedSd(values, weights, count)).toBeCloseTo(standardDeviation(drawnOut), 6);
      // The library goes straight between values, we take the first that reaches the share: no more than one value apart.
      const found = weightedQuantile(order, values, weights, count, share);
      expect(found).toBeGreaterThanOrEqual(quantile(drawnOut, Math.max(0, share - 1 / drawnOut.length)) - 1e-9);
      expect(found).toBeLessThanOrEqual(quantile(drawnOut, Math.min(1, share + 1 / drawnOut.length)) + 1e-9);
    }),
  );
});

test('normalShare() agrees with the table of simple-statistics, and is nothing far below and all far above', () => {
  // The library's own approximation of the error function is good to some 1e-4.
  for (let z = -3; z <= 3; z += 0.25) expect(normalShare(z)).toBeCloseTo(cumulativeStdNormalProbability(z), 3);
  expect(normalShare(0)).toBeCloseTo(0.5, 7);
  expect(normalShare(1.2816)).toBeCloseTo(0.9, 4);
  expect([normalShare(-40), normalShare(40)]).toEqual([0, 1]);
});
