import { describe, expect, test } from 'vitest';
import { climateWeather, mildClimate } from '../../../simulator/model/climate.ts';
import { measuredAir } from '../../../simulator/model/measured-air.ts';

const hourMs = 3_600_000;
const year = Array.from({ length: 365 * 24 }, (_, hour) => Date.UTC(2031, 0, 1) + hour * hourMs);

describe('climateWeather()', () => {
  const weather = climateWeather(mildClimate, 4);
  const airs = year.map((atMs) => ({ atMs, ...weather(atMs) }));
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  test('climateWeather() has the mean of its climate within 1 K and the seasons in their months', () => {
    expect(Math.abs(mean(airs.map(({ tempC }) => tempC)) - mildClimate.meanC)).toBeLessThan(1);
    const month = (m: number) =>
      mean(airs.filter(({ atMs }) => new Date(atMs).getUTCMonth() === m).map(({ tempC }) => tempC));
    expect(month(6)).toBeGreaterThan(month(0) + 8);
  });
  test('climateWeather() is warmest in the afternoon and dark at midnight', () => {
    const hour = (h: number) => airs.filter(({ atMs }) => new Date(atMs).getUTCHours() === h);
    expect(mean(hour(15).map(({ tempC }) => tempC))).toBeGreaterThan(mean(hour(4).map(({ tempC }) => tempC)) + 3);
    expect(Math.max(...hour(0).map(({ sunWM2 }) => sunWM2))).toBe(0);
    expect(mean(hour(12).map(({ sunWM2 }) => sunWM2))).toBeGreaterThan(150);
  });
  test('climateWeather() rains about as often as its climate says and never leaves what air can be', () => {
    const wet = airs.filter(({ rainMmH }) => rainMmH > 0).length / airs.length;
    expect(wet).toBeGreaterThan(mildClimate.rainShare - 0.02);
    expect(wet).toBeLessThan(mildClimate.rainShare + 0.02);
    for (const { rhPct, windMS, cloudFrac } of airs) {
      expect(rhPct).toBeGreaterThanOrEqual(15);
      expect(rhPct).toBeLessThanOrEqual(100);
      expect(windMS).toBeGreaterThanOrEqual(0);
      expect(cloudFrac).toBeGreaterThanOrEqual(0);
      expect(cloudFrac).toBeLessThanOrEqual(1);
    }
  });
  test('climateWeather() is the same for the same seed in any order, and another for another seed', () => {
    const again = climateWeather(mildClimate, 4);
    const other = climateWeather(mildClimate, 5);
    const some = year.filter((_, i) => i % 97 === 0);
    expect(
      [...some]
        .reverse()
        .map((atMs) => again(atMs))
        .reverse(),
    ).toEqual(some.map((atMs) => weather(atMs)));
    expect(some.map((atMs) => other(atMs).tempC)).not.toEqual(some.map((atMs) => weather(atMs).tempC));
  });
  test('climateWeather() south of the equator has its winter in July', () => {
    const south = climateWeather({ ...mildClimate, latitudeDeg: -40 }, 4);
    expect(south(Date.UTC(2031, 6, 10, 12)).tempC).toBeLessThan(south(Date.UTC(2031, 0, 10, 12)).tempC - 5);
  });
});

describe('measuredAir()', () => {
  const weather = measuredAir([
    { atMs: 0, tempC: 10, rhPct: 80 },
    { atMs: hourMs, tempC: 14, rainMmH: 2 },
    { atMs: 2 * hourMs, rainMmH: 0 },
  ]);
  test('measuredAir() lies on a straight line between rows and stays before and after them', () => {
    expect([-hourMs, 0, hourMs / 2, hourMs, 9 * hourMs].map((atMs) => weather(atMs).tempC)).toEqual([
      10, 10, 12, 14, 14,
    ]);
  });
  test('measuredAir() keeps what a row lacks, and takes rain as the total of the hour that ends', () => {
    expect(weather(1.5 * hourMs).rhPct).toBe(80);
    expect([0.5, 1.5].map((hours) => weather(hours * hourMs).rainMmH)).toEqual([2, 0]);
  });
  test('measuredAir() refuses no rows and rows out of order', () => {
    expect(() => measuredAir([])).toThrow(RangeError);
    expect(() => measuredAir([{ atMs: 5 }, { atMs: 5 }])).toThrow(RangeError);
  });
});
