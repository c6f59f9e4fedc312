// 85 °C is the power-on register of a DS18B20 (0x0550 = 1360/16), and such a reading passes its checksum:
// maker's data sheet, read second-hand. That a pile does not step by 5 °C and more within a sample: common practice.
import { expect, test } from 'vitest';
import { createPowerOnGuard } from '../../ingest/decode/power-on-guard.ts';

const hourMs = 3_600_000;
const t0 = Date.UTC(2031, 3, 5);
const at = (value: number, atMs: number) => ({ site: 's', probe: 'p', quantity: 'temperature', value, atMs }) as const;

const rows: [before: number, afterMs: number, accepted: boolean][] = [
  [80, 60_000, true], // 5 °C away, and not more
  [79.9, 60_000, false],
  [90, 60_000, true],
  [90.1, 60_000, false],
  [84, hourMs, true], // an hour ago, and not more
  [84, hourMs + 1, false],
  [84, -hourMs, true], // late by an hour
  [84, -hourMs - 1, false],
  [41, 60_000, false],
];
for (const [before, afterMs, accepted] of rows) {
  test(`accepts() ${accepted ? 'takes' : 'refuses'} 85 °C ${afterMs / 1000} s after ${before} °C`, () => {
    const guard = createPowerOnGuard();
    expect(guard.accepts(at(before, t0))).toBe(true);
    expect(guard.accepts(at(85, t0 + afterMs))).toBe(accepted);
  });
}

test('accepts() refuses 85 °C from a probe never heard before', () => {
  expect(createPowerOnGuard().accepts(at(85, t0))).toBe(false);
});

test('accepts() takes any other temperature, also 84.9375 and 85.0625 beside it', () => {
  for (const value of [84.9375, 85.0625, 120, -55]) expect(createPowerOnGuard().accepts(at(value, t0))).toBe(true);
});

test('accepts() does not let one refused 85 °C vouch for the next', () => {
  const guard = createPowerOnGuard();
  guard.accepts(at(41, t0));
  expect([guard.accepts(at(85, t0 + 1000)), guard.accepts(at(85, t0 + 2000))]).toEqual([false, false]);
});

test('accepts() takes 85 °C again and again in a pile that is there', () => {
  const guard = createPowerOnGuard();
  guard.accepts(at(84, t0));
  expect([1, 2, 3].map((minute) => guard.accepts(at(85, t0 + minute * 60_000)))).toEqual([true, true, true]);
});

test('accepts() keeps the live neighbour while older readings come in late', () => {
  const guard = createPowerOnGuard();
  guard.accepts(at(84, t0));
  guard.accepts(at(30, t0 - 24 * hourMs));
  expect(guard.accepts(at(85, t0 + 60_000))).toBe(true);
});

test('remember() lets a hot pile be believed after a restart', () => {
  const guard = createPowerOnGuard();
  guard.remember('s', 'p', 83, t0);
  expect(guard.accepts(at(85, t0 + 60_000))).toBe(true);
});
