import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanUnits } from '../../shared/contracts/plan.ts';
import { figure, type MeasureKind, measure, measureText } from '../../shared/measure.ts';
import { celsiusToFahrenheit, fahrenheitToCelsius } from '../../shared/units.ts';
import { anyUnits, seed } from '../core/plan/arbitrary-asks.ts';
import { inSi } from '../core/plan/work-sum.ts';

const metric: PlanUnits = { mass: 'kg', volume: 'L', length: 'm', temperature: 'C' };
const american: PlanUnits = { mass: 'lb', volume: 'gal', length: 'ft', temperature: 'F' };
const amounts = fc.double({ min: 1e-6, max: 1e9, noNaN: true });

describe('units, there and back', () => {
  test('°F come back as they were', () => {
    fc.assert(
      fc.property(fc.double({ min: -273.15, max: 1000, noNaN: true }), (tempC) => {
        expect(Math.abs(fahrenheitToCelsius(celsiusToFahrenheit(tempC)) - tempC)).toBeLessThan(1e-12);
      }),
      { seed },
    );
  });
});

/** Size of the planner's own unit of each kind, in kilograms and metres. */
const own: Partial<Record<MeasureKind, number>> = {
  massKg: 1,
  volumeL: 1e-3,
  starterMl: 1e-6,
  densityKgM3: 1,
  depthM: 1,
  lengthM: 1,
  areaM2: 1,
  rateKgM2: 1,
};

describe('measure()', () => {
  test('says the same amount in whatever units, by their definitions written out in the test', () => {
    const kinds = Object.keys(own) as MeasureKind[];
    fc.assert(
      fc.property(fc.constantFrom(...kinds), amounts, anyUnits, (kind, value, units) => {
        const { value: shown, unit } = measure(kind, value, units);
        expect(Math.abs(inSi(shown, unit).low / (value * (own[kind] ?? Number.NaN)) - 1)).toBeLessThan(1e-12);
      }),
      { seed },
    );
  });
  for (const [kind, value, inMetric, inAmerican] of [
    ['massKg', 11.33980925, '11.34 kg', '25 lb'],
    ['volumeL', 8, '8 L', '2.113 US gal'],
    ['starterMl', 16, '16 mL', '16 mL'],
    ['densityKgM3', 200, '0.2 kg/L', '1.669 lb/US gal'],
    ['depthM', 0.3, '30 cm', '11.81 in'],
    ['areaM2', 10, '10 m²', '107.6 ft²'],
    ['rateKgM2', 0.15, '0.15 kg/m²', '0.03072 lb/ft²'],
    ['tempC', 50, '50 °C', '122 °F'],
    ['share', 0.6, '60 %', '60 %'],
  ] as const) {
    test(`reads ${value} of ${kind} as ${inMetric} and as ${inAmerican}`, () => {
      expect([measureText(kind, value, metric), measureText(kind, value, american)]).toEqual([inMetric, inAmerican]);
    });
  }
});

describe('figure()', () => {
  for (const [value, text] of [
    [19.960079, '19.96'],
    [12.000000000000002, '12'],
    [0.267085, '0.2671'],
    [15142.857, '15143'],
    [-3.5, '−3.5'],
    [0, '0'],
  ] as const) {
    test(`writes ${value} as ${text}`, () => {
      expect(figure(value)).toBe(text);
    });
  }
});
