import { expect, test } from 'vitest';
import { type AirAround, type BedHeat, hourWork, mostPerH } from '../../../core/estimate/work.ts';
import type { Recipe } from '../../../shared/contracts/domain/batch.ts';

const recipe: Recipe = { material: 'wheat-bran', depthM: 0.3, massKg: 100, moistureFrac: 0.6, cover: 'breathable' };
const bed = { cover: 'breathable', depthM: 0.3 } as const;
const air: AirAround = { hourC: 20, dayC: 20 };
const alone = (coreC: number): BedHeat => ({ coreC, topC: null, baseC: null });
const work = (now: BedHeat, before: BedHeat = now, around = air): number =>
  hourWork(now, before, around, recipe, bed, 1.5);

test('hourWork() of a bed at the temperature of its air that stays there is nothing', () => {
  expect(work(alone(20))).toBeCloseTo(0, 5);
  expect(work({ coreC: 20, topC: 20, baseC: 20 })).toBeCloseTo(0, 5);
});

test('hourWork() counts the heat stored: one kelvin in 55.5 kg/m² of bran at 60 % is 415 kJ/m², 1.2 % of 34.6 MJ/m²', () => {
  // 184.8 kg/m³ x 0.3 m x (1200 + 4186 x 1.5) J/K; 55.4 kg/m² x 17.3 MJ/kg x 0.036 of it burns.
  expect(work(alone(21), alone(20)) - work(alone(21))).toBeCloseTo(0.012, 3);
});

test('hourWork() of a bed that works at its top alone sees it by the top, and not by the core', () => {
  const choked = { coreC: 28, topC: 44, baseC: 22 };
  expect(24 * work(alone(28))).toBeLessThan(0.06);
  expect(24 * work(choked)).toBeGreaterThan(0.12);
});

test('hourWork() of a bed as a probe in the core alone would draw it comes to much the same with all three', () => {
  const one = work(alone(40));
  const three = work({ coreC: 40, topC: 30, baseC: 33 });
  expect(three / one).toBeGreaterThan(0.6);
  expect(three / one).toBeLessThan(1.7);
});

test('hourWork() below 5 °C takes no thaw for work, above it does', () => {
  const cold = { hourC: 0, dayC: 0 };
  expect(work(alone(4.9), alone(4), cold)).toBe(0);
  expect(work(alone(5.5), alone(4), cold)).toBeGreaterThan(0);
});

// Rosso's factor at 10 °C of (5, 37, 48): (10 - 48) 5² / (32 (32 (10 - 37) - (37 - 48)(37 + 5 - 20))) = 0.0477; 2 / 24 of it an hour.
test('hourWork() of a bed that warms in the sun is no more than its warmest place can burn: a tenth a day at 10 °C', () => {
  expect(mostPerH(10)).toBeCloseTo(0.0477 / 12, 5);
  expect(work(alone(10), alone(5))).toBe(mostPerH(10));
  expect(work({ coreC: 10, topC: 20, baseC: 9 }, { coreC: 5, topC: 5, baseC: 5 })).toBe(mostPerH(20));
});
