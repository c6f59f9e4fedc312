import { mean, quantileSorted, standardDeviation } from 'simple-statistics';
import { expect, test } from 'vitest';
import { airCourse } from '../../../core/expect/air-course.ts';
import { bandAt } from '../../../core/expect/band.ts';
import { runEnsemble } from '../../../core/expect/ensemble.ts';
import { bandOfEnsemble, expectedBand } from '../../../core/expect/expected-band.ts';
import { quantileOfSorted } from '../../../core/expect/quantile.ts';
import { seededRandom } from '../../../core/expect/random.ts';
import { saturatedVapourKgM3 } from '../../../core/physics/vapour-table.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerHour } from '../../../shared/units.ts';
import { vapourDensityKgM3 } from '../../../shared/water.ts';
import { setupOf, startMs } from '../helpers.ts';

const day = (baseC: number) =>
  Array.from({ length: 240 }, (_, hour) => ({
    atMs: startMs + hour * msPerHour,
    tempC: baseC + 5 * Math.cos((2 * Math.PI * (hour - 7)) / 24),
  }));
const toMs = startMs + 240 * msPerHour;

test('expectedBand() is ordered, hourly, and begins with the batch', () => {
  const band = expectedBand(setupOf(), day(22), toMs);
  expect([band.fromMs, band.stepMs, band.p50C.length]).toEqual([startMs, msPerHour, 241]);
  band.p50C.forEach((middle, hour) => {
    expect(band.p10C[hour]).toBeLessThanOrEqual(middle);
    expect(band.p90C[hour]).toBeGreaterThanOrEqual(middle);
  });
});

// BIO-9 and common practice: ambient to 40-50 °C within one to two days, done within about a week (figures second-hand).
test('expectedBand() of a usual bran bed at 22 °C reaches 40 °C on its second or third day and has cooled by the tenth', () => {
  const band = expectedBand(setupOf(), day(22), toMs);
  const warm = band.p50C.findIndex((tempC) => tempC >= 40);
  expect(warm).toBeGreaterThan(18);
  expect(warm).toBeLessThan(72);
  expect(band.p50C.at(-1)).toBeLessThan(32);
});

test('expectedBand() is the same for the same batch, and not for another seed', () => {
  const once = expectedBand(setupOf(), day(22), toMs, { members: 30 });
  expect(expectedBand(setupOf(), day(22), toMs, { members: 30 })).toEqual(once);
  expect(expectedBand(setupOf(), day(22), toMs, { members: 30, seed: 2 }).p50C).not.toEqual(once.p50C);
});

test('expectedBand() moves with the weather, the depth and a turn', () => {
  const at36 = (band: ReturnType<typeof expectedBand>): number => bandAt(band, startMs + 36 * msPerHour)?.p50C ?? 0;
  const usual = at36(expectedBand(setupOf(), day(22), toMs));
  expect(at36(expectedBand(setupOf(), day(10), toMs))).toBeLessThan(usual - 8);
  const deep = setupOf('bran', { recipe: { ...setupOf().recipe, depthM: 0.5 } });
  expect(at36(expectedBand(deep, day(22), toMs))).toBeGreaterThan(usual);
  const turned = setupOf('bran', { acts: [{ kind: 'turned', atMs: startMs + 60 * msPerHour }] });
  const after = (setup: typeof turned): number =>
    bandAt(expectedBand(setup, day(22), toMs), startMs + 61 * msPerHour)?.p50C ?? 0;
  expect(after(turned)).toBeLessThan(after(setupOf()) - 4);
});

test('expectedBand() of a deep closed bed at 35 °C stays below 75 °C, and of one at −10 °C above −25 °C', () => {
  const hot = setupOf('bran', { recipe: { material: 'rice-bran', depthM: 1.5, cover: 'closed' } });
  const band = expectedBand(hot, day(35), toMs);
  expect(Math.max(...band.p90C)).toBeLessThan(75);
  expect(Math.min(...expectedBand(setupOf(), day(-10), toMs).p10C)).toBeGreaterThan(-25);
});

test('expectedBand() of a bed laid at 6 °C whose air nobody measures is that of a cold day, not of a mild one', () => {
  const at = (guessedAirC?: number) => expectedBand(setupOf(), [], toMs, { members: 40, guessedAirC });
  expect(airCourse([], startMs, 24, [], 6).reduce((sum, tempC) => sum + tempC) / 25).toBeCloseTo(6, 0);
  expect(at(6).p50C[0]).toBeLessThan(16);
  expect(at().p50C[0]).toBeGreaterThan(16);
  // Whatever was measured outweighs a guess.
  expect(airCourse([{ atMs: startMs, tempC: 15 }], startMs, 24, [], 6)[12]).toBe(15);
});

test('expectedBand() says where it comes from', () => {
  expect(plainEnglish(expectedBand(setupOf(), [], toMs, { members: 5 }).origin)).toContain(
    'a day about as warm as its core began (as no air is measured)',
  );
  const turned = setupOf('bran', { acts: [{ kind: 'turned', atMs: startMs + 1 }] });
  expect(plainEnglish(expectedBand(turned, day(20), toMs, { members: 5 }).origin)).toContain(
    'the measured air and the one act you logged',
  );
});

test('bandAt() is straight between hours and nothing outside the grid', () => {
  const band = { fromMs: 0, stepMs: 10, p10C: [1, 2], p50C: [2, 4], p90C: [3, 6], origin: verbatim('') };
  expect(bandAt(band, 5)).toEqual({ p10C: 1.5, p50C: 3, p90C: 4.5 });
  expect(bandAt(band, 10)).toEqual({ p10C: 2, p50C: 4, p90C: 6 });
  expect([bandAt(band, -1), bandAt(band, 11)]).toEqual([undefined, undefined]);
});

test('airCourse() bridges gaps straight and repeats the day before beyond the last reading', () => {
  const air = [
    { atMs: 0, tempC: 10 },
    { atMs: 4 * msPerHour, tempC: 14 },
  ];
  expect([...airCourse(air, 0, 5)].slice(0, 5)).toEqual([10, 11, 12, 13, 14]);
  const course = airCourse(day(20), startMs, 300);
  expect(Math.abs((course[280] ?? 0) - (course[280 - 24] ?? 0))).toBeLessThan(0.5);
});

test('quantileOfSorted() agrees with simple-statistics at the order statistics', () => {
  const random = seededRandom(7);
  const sorted = Array.from({ length: 201 }, () => random.normal(0, 1)).sort((one, other) => one - other);
  for (const share of [0.1, 0.5, 0.9]) {
    // 201 values put these shares on order statistics 20, 100 and 180, where definitions of a quantile agree to one rank.
    expect(Math.abs(quantileOfSorted(sorted, share) - quantileSorted(sorted, share))).toBeLessThan(0.1);
  }
  expect(quantileOfSorted([1, 2], 0.5)).toBe(1.5);
  expect(quantileOfSorted([], 0.5)).toBeNaN();
});

test('seededRandom() draws what it says, as simple-statistics sees it', () => {
  const random = seededRandom(20310405);
  const normals = Array.from({ length: 20_000 }, () => random.normal(5, 2));
  // Four standard errors: 2/sqrt(20000) = 0.014 of the mean, 0.010 of the deviation.
  expect(Math.abs(mean(normals) - 5)).toBeLessThan(0.06);
  expect(Math.abs(standardDeviation(normals) - 2)).toBeLessThan(0.04);
  const uniforms = Array.from({ length: 20_000 }, () => random.uniform());
  expect(Math.min(...uniforms)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...uniforms)).toBeLessThan(1);
  expect(Math.abs(mean(uniforms) - 0.5)).toBeLessThan(0.01);
});

test('saturatedVapourKgM3() is within 0.02 % of the shared equation between 0 and 80 °C', () => {
  for (let tempC = 0; tempC <= 80; tempC += 0.37) {
    const exact = vapourDensityKgM3(tempC, 100);
    expect(Math.abs(saturatedVapourKgM3(tempC) - exact) / exact).toBeLessThan(2e-4);
  }
});

test('expectedBand() of piles in turn, longer and shorter, is that of each alone', () => {
  const alone = [3, 9, 1].map((days) => expectedBand(setupOf(), [], startMs + days * 24 * msPerHour, { members: 9 }));
  const again = [3, 9, 1].map((days) => {
    const ensemble = runEnsemble(setupOf(), [], startMs + days * 24 * msPerHour, { members: 9 });
    return bandOfEnsemble(ensemble, alone[0]?.origin ?? verbatim(''));
  });
  expect(again).toEqual(alone);
});
