import { expect, test } from 'vitest';
import type { ExpectedBand } from '../../../core/curve/band.ts';
import { expectedBand } from '../../../core/curve/expected-band.ts';
import { forecastCore, forecastH } from '../../../core/forecast/forecast.ts';
import { msPerHour } from '../../../shared/units.ts';
import { setupOf, startMs } from '../helpers.ts';

/** A band whose members are given hour by hour. */
function bandOf(members: readonly ((hour: number) => number)[], steps = 120): ExpectedBand {
  const coreC = new Float32Array(members.length * steps);
  members.forEach((curve, member) => {
    for (let hour = 0; hour < steps; hour += 1) coreC[member * steps + hour] = curve(hour);
  });
  return {
    fromMs: 0,
    stepMs: msPerHour,
    p10C: [],
    p50C: [],
    p90C: [],
    origin: '',
    members: { count: members.length, steps, coreC },
  };
}

const flat = (): number => 30;
const steep = (hour: number): number => 20 + hour;
const gentle = (hour: number): number => 20 + 0.25 * hour;

test('forecastCore() follows the member that behaved as the pile did', () => {
  const fan = forecastCore(bandOf([flat, steep, gentle]), (hour) => 20.5 + hour, 20, 41, 0, 50);
  // All weight is on the steep member; at most 0.88 of a foretold rise is believed (development piles).
  expect(fan?.p50C[11]).toBeCloseTo(41 + 0.88 * 12, 0);
  const calm = forecastCore(bandOf([flat, steep, gentle]), () => 30, 20, 30, 0, 50);
  expect(calm?.p50C[11]).toBeCloseTo(30, 0);
});

test('forecastCore() lays the rise of a member on what was seen, not its level', () => {
  const fan = forecastCore(bandOf([steep]), (hour) => 17.5 + hour, 20, 38, 0, 50);
  expect(fan?.p50C[3]).toBeGreaterThan(40);
  expect(fan?.p50C[3]).toBeLessThan(43);
});

test('forecastCore() tells when and how likely the limit is passed', () => {
  const fan = forecastCore(bandOf([steep, steep, flat]), (hour) => 20.5 + hour, 23, 44, 0, 50);
  // 44 °C now, one more each hour: above 50 in the seventh hour.
  expect([fan?.overLikelihood, fan?.overInH]).toEqual([1, 7]);
  const never = forecastCore(bandOf([flat]), () => 30, 24, 30, 0, 50);
  expect([never?.overLikelihood, never?.overInH]).toEqual([0, null]);
});

test('forecastCore() is a fan of 24 ordered hours that widens', () => {
  const band = expectedBand(setupOf(), [{ atMs: startMs, tempC: 22 }], startMs + 120 * msPerHour, { members: 60 });
  const own = band.p50C;
  const fan = forecastCore(band, (hour) => own[hour] ?? null, 40, own[41] ?? 0, 0, 50);
  expect(fan?.p50C.length).toBe(forecastH);
  fan?.p50C.forEach((middle, ahead) => {
    expect(fan.p10C[ahead]).toBeLessThanOrEqual(middle);
    expect(fan.p90C[ahead]).toBeGreaterThanOrEqual(middle);
  });
  const width = (ahead: number): number => (fan?.p90C[ahead] ?? 0) - (fan?.p10C[ahead] ?? 0);
  expect(width(23)).toBeGreaterThan(width(0));
});

test('forecastCore() says nothing without members, or beyond the grid', () => {
  const { members, ...bare } = bandOf([flat]);
  expect(members?.count).toBe(1);
  expect(forecastCore(bare, () => 30, 20, 30, 0, 50)).toBeNull();
  expect(forecastCore(bandOf([flat], 30), () => 30, 25, 30, 0, 50)).toBeNull();
});

test('forecastCore() is the same twice: nothing is carried over from another pile', () => {
  const band = bandOf([flat, steep, gentle]);
  const once = forecastCore(band, (hour) => 20.5 + hour, 20, 41, 0, 50);
  forecastCore(band, () => 30, 20, 30, 0, 50);
  expect(forecastCore(band, (hour) => 20.5 + hour, 20, 41, 0, 50)).toEqual(once);
});
