import { describe, expect, test } from 'vitest';
import { type CardinalTemps, cardinalRate } from '../../simulator/model/cardinal-rate.ts';
import { freeAirFactor, moistureFactor, oxygenFactor, waterActivity } from '../../simulator/model/factors.ts';
import { freeAirFrac } from '../../simulator/model/layer.ts';
import { type MaterialName, materials } from '../../simulator/model/material.ts';
import { createPile } from '../../simulator/model/pile.ts';
import { heatPerOxygenJKg, heatPerStarchJKg, oxidationOf, starch } from '../../simulator/model/stoichiometry.ts';

describe('cardinalRate()', () => {
  // Equation: Rosso, Lobry, Flandrois 1993, J. Theor. Biol. 162:447-463. Values computed from it; 5e-4: their rounding.
  const sets: [name: string, set: CardinalTemps, rows: [tempC: number, rate: number][]][] = [
    [
      'S. cerevisiae PE35M (Salvado et al. 2011)',
      { minC: 5.04, optC: 30, maxC: 45.48 },
      [
        [20, 0.7],
        [25, 0.9173],
        [30, 1],
        [35, 0.9051],
        [40, 0.6011],
        [45, 0.0645],
      ],
    ],
    [
      'E. coli (Rosso 1993, set from memory)',
      { minC: 4.9, optC: 41.3, maxC: 47.5 },
      [
        [20, 0.2338],
        [30, 0.6096],
        [40, 0.9882],
        [45, 0.8068],
      ],
    ],
    [
      'E. coli K12 (Van Derlinden 2008, set from memory)',
      { minC: 11.33, optC: 40.85, maxC: 46.54 },
      [
        [20, 0.1237],
        [35, 0.7991],
        [45, 0.6381],
      ],
    ],
    [
      'composting mass (Richard & Walker 2006, set from memory)',
      { minC: 5, optC: 58.6, maxC: 71.6 },
      [
        [20, 0.1229],
        [40, 0.5968],
        [50, 0.8736],
        [55, 0.9725],
        [65, 0.8522],
        [70, 0.33],
      ],
    ],
  ];
  for (const [name, set, rows] of sets) {
    for (const [tempC, rate] of rows) {
      test(`cardinalRate() of ${name} at ${tempC} °C is ${rate}`, () => {
        expect(Math.abs(cardinalRate(tempC, set) - rate)).toBeLessThan(5e-4);
      });
    }
    test(`cardinalRate() of ${name} is 1 at its best and 0 at and outside its ends`, () => {
      // Where the equation is defined.
      expect(set.optC).toBeGreaterThan((set.minC + set.maxC) / 2);
      expect(set.optC).toBeLessThan(set.maxC);
      expect(Math.abs(cardinalRate(set.optC, set) - 1)).toBeLessThan(1e-12);
      for (const tempC of [set.minC, set.maxC, set.minC - 5, set.maxC + 5, Number.NaN]) {
        expect(cardinalRate(tempC, set)).toBe(0);
      }
    });
  }
});

describe('factors of moisture, air space and oxygen (constants of Haug 1993, from memory)', () => {
  // Computed from the remembered equations; the half point of moisture agrees with Cornell's published bands. 1e-4: rounding.
  const moist: [number, number][] = [
    [0.3, 0.1472],
    [0.4, 0.5028],
    [0.5, 0.8557],
    [0.6, 0.972],
    [0.65, 0.9883],
  ];
  for (const [frac, share] of moist) {
    test(`moistureFactor() at ${frac} is ${share}`, () => {
      expect(Math.abs(moistureFactor(frac) - share)).toBeLessThan(1e-4);
    });
  }
  const air: [number, number][] = [
    [0.05, 0.0902],
    [0.15, 0.5142],
    [0.2, 0.7757],
    [0.3, 0.9736],
  ];
  for (const [frac, share] of air) {
    test(`freeAirFactor() at ${frac} is ${share}`, () => {
      expect(Math.abs(freeAirFactor(frac) - share)).toBeLessThan(1e-4);
    });
  }
  test('oxygenFactor() at 1, 2, 5 and 20.95 % is 0.3333, 0.5, 0.7143 and 0.9129', () => {
    expect([0.01, 0.02, 0.05, 0.2095].map((frac) => Number(oxygenFactor(frac).toFixed(4)))).toEqual([
      0.3333, 0.5, 0.7143, 0.9129,
    ]);
  });
});

describe('waterActivity()', () => {
  // Modified Chung-Pfost for hard wheat, ANSI/ASABE D245.5 (constants from memory), at 25 °C. 2e-3: rounding of M.
  const rows: [dryBasisPct: number, rh: number][] = [
    [13.1, 0.5],
    [16.88, 0.7],
    [19.54, 0.8],
    [23.8, 0.9],
    [27.89, 0.95],
  ];
  for (const [dryBasisPct, rh] of rows) {
    test(`waterActivity() of ${dryBasisPct} % dry basis at 25 °C is ${rh}`, () => {
      expect(Math.abs(waterActivity(25, dryBasisPct / 100) - rh)).toBeLessThan(2e-3);
    });
  }
});

describe('stoichiometry', () => {
  const glucose = oxidationOf(6, 12, 6);
  // Exact from atomic masses; figures as printed to four places, 0.1 %: different rounding of atomic masses.
  const rows: [what: string, value: number, printed: number][] = [
    ['oxygen per kg of glucose', glucose.oxygenKgKg, 1.0657],
    ['carbon dioxide per kg of glucose', glucose.carbonDioxideKgKg, 1.4657],
    ['water per kg of glucose', glucose.waterKgKg, 0.6],
    ['oxygen per kg of starch', starch.oxygenKgKg, 1.1841],
    ['carbon dioxide per kg of starch', starch.carbonDioxideKgKg, 1.6285],
    ['water per kg of starch', starch.waterKgKg, 0.5555],
  ];
  for (const [what, value, printed] of rows) {
    test(`oxidationOf() gives ${printed} kg of ${what}`, () => {
      expect(Math.abs(value / printed - 1)).toBeLessThan(1e-3);
    });
  }
  test('oxidationOf() neither makes nor loses mass', () => {
    for (const food of [glucose, starch]) {
      expect(1 + food.oxygenKgKg).toBeCloseTo(food.carbonDioxideKgKg + food.waterKgKg, 12);
    }
  });
  test('heatPerOxygenJKg is 14.6 MJ: 2803 kJ/mol of glucose (standard enthalpy, from memory) is 15.56 MJ per kg', () => {
    expect(heatPerOxygenJKg / 1e6).toBeCloseTo(14.6, 1);
    expect((heatPerOxygenJKg * glucose.oxygenKgKg) / 1e6).toBeCloseTo(15.56, 2);
    expect(heatPerStarchJKg / 1e6).toBeCloseTo(17.29, 1);
  });
});

describe('free air space as laid', () => {
  // Bulk densities of FAO ADCP/REP appendix XI, particle density 1500 kg/m³ (assumption), computed. 0.01: rounding.
  const rows: [material: MaterialName, moistureFrac: number, freeAir: number][] = [
    ['wheat-bran', 0.6, 0.619],
    ['wheat-bran', 0.65, 0.556],
    ['rice-bran', 0.6, 0.371],
    ['rice-bran', 0.65, 0.267],
  ];
  for (const [material, moistureFrac, freeAir] of rows) {
    test(`createPile() of ${material} at ${moistureFrac * 100} % has ${freeAir} of its volume as air`, () => {
      const pile = createPile({
        ingredients: [{ material, massKg: 10 }],
        moistureFrac,
        doseFrac: 0,
        depthM: 0.2,
        tempC: 20,
        startMs: 0,
      });
      for (const layer of pile.layers) expect(Math.abs(freeAirFrac(layer, pile.material) - freeAir)).toBeLessThan(0.01);
    });
  }
  test('bulk density of both brans at 12 % moisture lies in the bands FAO prints: 170-250 and 320-330 kg/m³', () => {
    const asBought = (name: MaterialName) => materials[name].looseBulkKgM3 / 0.88;
    expect(asBought('wheat-bran')).toBeGreaterThanOrEqual(170);
    expect(asBought('wheat-bran')).toBeLessThanOrEqual(250);
    expect(asBought('rice-bran')).toBeGreaterThanOrEqual(320);
    expect(asBought('rice-bran')).toBeLessThanOrEqual(330);
  });
});
