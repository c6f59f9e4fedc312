import { expect, test } from 'vitest';
import type { WorkedBand } from '../../../core/expect/band.ts';
import { blendFinished, ownWeight } from '../../../core/expect/finished.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerHour } from '../../../shared/units.ts';

const band: WorkedBand = {
  fromMs: 0,
  stepMs: msPerHour,
  p10C: [20, 20, 20],
  p50C: [30, 30, 30],
  p90C: [40, 40, 40],
  origin: verbatim('worked out'),
};
const level = (tempC: number, hours = 3) => ({ coreByHourC: new Array<number>(hours).fill(tempC) });

test('ownWeight() is nothing for two batches, 3/7 for three, and grows towards one', () => {
  expect([0, 1, 2].map(ownWeight)).toEqual([0, 0, 0]);
  expect(ownWeight(3)).toBeCloseTo(3 / 7, 12);
  expect(ownWeight(12)).toBe(0.75);
});

test('blendFinished() leaves the band alone for two batches', () => {
  expect(blendFinished(band, [level(45), level(45)])).toBe(band);
});

test('blendFinished() draws the band towards three batches of the grower’s own, and says so', () => {
  const blended = blendFinished(band, [level(44), level(44), level(44)]);
  expect(blended.p50C[1]).toBeCloseTo(30 + (3 / 7) * 14, 10);
  expect(blended.p10C[1]).toBeCloseTo(20 + (3 / 7) * 24, 10);
  expect(plainEnglish(blended.origin)).toBe('worked out, and from 3 finished batches of your own');
});

test('blendFinished() keeps to the model where too few batches ran so long', () => {
  const long = { ...band, p10C: new Array(20).fill(20), p50C: new Array(20).fill(30), p90C: new Array(20).fill(40) };
  const blended = blendFinished(long, [level(44, 20), level(44), level(44)]);
  expect(blended.p50C[0]).toBeGreaterThan(35);
  expect(blended.p50C[19]).toBe(30);
});

test('blendFinished() keeps its order, gaps and all', () => {
  const batches = [
    { coreByHourC: [30, null, 50] },
    { coreByHourC: [null, 42, 48] },
    { coreByHourC: [28, 40, null] },
    { coreByHourC: [25, 39, 46] },
  ];
  const { p10C, p50C, p90C } = blendFinished(band, batches);
  p50C.forEach((middle, hour) => {
    expect(p10C[hour]).toBeLessThanOrEqual(middle);
    expect(p90C[hour]).toBeGreaterThanOrEqual(middle);
  });
});

test('blendFinished() keeps what the model said and what the batches said beside the blend', () => {
  const long = { ...band, p10C: new Array(20).fill(20), p50C: new Array(20).fill(30), p90C: new Array(20).fill(40) };
  const { sources } = blendFinished(long, [level(44), level(45), level(46)]);
  expect(sources?.model.p50C[0]).toBe(30);
  expect(sources?.own.p50C[0]).toBe(45);
  expect(sources?.own.p50C[19]).toBeNaN();
  expect(sources?.ownBatches).toBe(3);
});
