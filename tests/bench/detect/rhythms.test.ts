/** How piles are read by the people who keep them. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { msPerDay, msPerHour } from '../../../shared/units.ts';
import { createRandom } from '../../../simulator/model/random.ts';
import { everyHours, losses, outage, shown, steps, visits } from './rhythms.ts';

const startMs = Date.UTC(2031, 2, 1, 13);
const untilMs = startMs + 10 * msPerDay;

test('everyHours() reads all of the time, every so many hours to within some minutes', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 0, max: 1e6 }), (hours, seed) => {
      const times = everyHours(hours, startMs, untilMs, createRandom(seed));
      expect(Math.abs(times.length - 240 / hours)).toBeLessThanOrEqual(1);
      times.slice(1).forEach((atMs, i) => {
        const gapH = (atMs - (times[i] ?? 0)) / msPerHour;
        expect(Math.abs(gapH - hours)).toBeLessThan(0.1);
      });
    }),
  );
});

test('visits() are made by day, about twice a day, and some are not made', () => {
  const times = Array.from({ length: 20 }, (_, seed) => visits(startMs, untilMs, createRandom(seed)));
  for (const one of times) {
    expect(one[0]).toBe(startMs);
    for (const atMs of one.slice(1)) {
      const hour = (atMs % msPerDay) / msPerHour;
      expect(hour).toBeGreaterThan(6);
      expect(hour).toBeLessThan(20.1);
    }
  }
  const perDay = times.flat().length / 20 / 10;
  expect(perDay).toBeGreaterThan(1.6);
  expect(perDay).toBeLessThan(2);
});

test('shown() is off by half a step at most, and has no other values', () => {
  const stepsK = { '0.5 °C': 0.5, '1 °C': 1, '1 °F': 5 / 9 };
  fc.assert(
    fc.property(fc.double({ min: -20, max: 90, noNaN: true }), fc.constantFrom(...steps), (tempC, step) => {
      expect(Math.abs(shown(tempC, step) - tempC)).toBeLessThanOrEqual(stepsK[step] / 2 + 1e-9);
      expect(shown(shown(tempC, step), step)).toBeCloseTo(shown(tempC, step), 9);
    }),
  );
  expect(shown(49.8, '1 °F')).toBeCloseTo(50, 9); // 121.64 °F is shown as 122
});

test('outage() lasts an hour to three days, within the run', () => {
  for (let seed = 0; seed < 200; seed += 1) {
    const { fromMs, toMs } = outage(startMs, untilMs, createRandom(seed));
    expect(fromMs).toBeGreaterThanOrEqual(startMs + 12 * msPerHour);
    expect(toMs).toBeLessThanOrEqual(untilMs);
    expect(toMs - fromMs).toBeGreaterThan(0.99 * msPerHour);
    expect(toMs - fromMs).toBeLessThanOrEqual(72 * msPerHour + 1);
  }
});

test('losses() take the share that was asked for, in bursts where asked', () => {
  for (const inBursts of [false, true]) {
    const isLost = losses(0.3, inBursts, createRandom(7));
    const lost = Array.from({ length: 20_000 }, () => isLost());
    expect(lost.filter(Boolean).length / lost.length).toBeCloseTo(0.3, 1);
    const again = lost.filter((one, i) => one && lost[i - 1] === true).length / lost.filter(Boolean).length;
    expect(again).toBeCloseTo(inBursts ? 0.8 : 0.3, 1);
  }
});
