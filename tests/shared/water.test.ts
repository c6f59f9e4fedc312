import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { latentHeatJKg, saturationVapourPressurePa, vapourDensityKgM3 } from '../../shared/water.ts';

interface Psychrolib {
  readonly SI: unknown;
  SetUnitSystem(system: unknown): void;
  GetSatVapPres(tempC: number): number;
  GetTDewPointFromRelHum(tempC: number, rhFrac: number): number;
}
// psychrolib (ASHRAE Handbook Fundamentals 2017, ch. 1) is a reference for tests only.
const psychrolib: Psychrolib = createRequire(import.meta.url)('psychrolib');
psychrolib.SetUnitSystem(psychrolib.SI);

const percentOff = (value: number, reference: number) => Math.abs(value / reference - 1) * 100;

describe('saturationVapourPressurePa()', () => {
  // IAPWS-IF97 region 4, computed from the equation that gives the official 300 K = 3536.58941 Pa (Table 35), and
  // the CRC table (Lide 2005) read through a mirror. 0.05 %: the fit's own error; 0.1 % for the table's rounding.
  const rows: [tempC: number, if97Pa: number, crcPa: number][] = [
    [0, 611.21, 611.3],
    [10, 1228.18, 1228.1],
    [20, 2339.21, 2338.8],
    [25, 3169.75, 3169.0],
    [30, 4246.69, 4245.5],
    [40, 7384.43, 7381.4],
    [50, 12351.27, 12344.0],
    [55, 15761.41, 15752.0],
    [60, 19945.8, 19932.0],
    [70, 31200.64, 31176.0],
    [80, 47414.72, 47373.0],
  ];
  for (const [tempC, if97Pa, crcPa] of rows) {
    test(`saturationVapourPressurePa() at ${tempC} °C is the steam table's ${if97Pa} Pa within 0.05 %`, () => {
      expect(percentOff(saturationVapourPressurePa(tempC), if97Pa)).toBeLessThan(0.05);
      expect(percentOff(saturationVapourPressurePa(tempC), crcPa)).toBeLessThan(0.1);
    });
  }
  test('saturationVapourPressurePa() at 26.85 °C is the official IF97 check value 3536.58941 Pa within 0.05 %', () => {
    expect(percentOff(saturationVapourPressurePa(26.85), 3536.58941)).toBeLessThan(0.05);
  });
  test('saturationVapourPressurePa() agrees with psychrolib within 0.1 % from 1 to 95 °C', () => {
    for (let tempC = 1; tempC <= 95; tempC += 1) {
      expect(percentOff(saturationVapourPressurePa(tempC), psychrolib.GetSatVapPres(tempC))).toBeLessThan(0.1);
    }
  });
  test('saturationVapourPressurePa() repeats the worked value of its page', () => {
    expect(saturationVapourPressurePa(60)).toBeCloseTo(19945.1, 1);
  });
  test('saturationVapourPressurePa() grows with temperature everywhere in its range', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 99, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (t, d) => {
          expect(saturationVapourPressurePa(t + d)).toBeGreaterThan(saturationVapourPressurePa(t));
        },
      ),
      { seed: 1 },
    );
  });
  test('saturationVapourPressurePa() refuses NaN, -40.1 and 100.1 °C and takes the ends of its range', () => {
    for (const tempC of [Number.NaN, -40.1, 100.1]) {
      expect(() => saturationVapourPressurePa(tempC)).toThrow(RangeError);
    }
    expect(saturationVapourPressurePa(-40)).toBeGreaterThan(0);
    expect(saturationVapourPressurePa(100)).toBeLessThan(101_500);
  });
});

describe('latentHeatJKg()', () => {
  // Saturated steam table, people.ohio.edu/trembly. 0.2 %: the straight line's own error.
  const rows: [tempC: number, kjKg: number][] = [
    [0.01, 2500.9],
    [10, 2477.2],
    [20, 2453.5],
    [25, 2441.7],
    [30, 2429.8],
    [40, 2406.0],
    [50, 2382.0],
    [55, 2369.8],
    [60, 2357.6],
    [70, 2333.0],
    [80, 2308.0],
  ];
  for (const [tempC, kjKg] of rows) {
    test(`latentHeatJKg() at ${tempC} °C is the steam table's ${kjKg} kJ/kg within 0.2 %`, () => {
      expect(percentOff(latentHeatJKg(tempC), kjKg * 1000)).toBeLessThan(0.2);
    });
  }
  test('latentHeatJKg() repeats the worked value of its page', () => {
    expect(latentHeatJKg(40)).toBe(2_406_560);
  });
  test('latentHeatJKg() refuses NaN and 101 °C', () => {
    expect(() => latentHeatJKg(Number.NaN)).toThrow(RangeError);
    expect(() => latentHeatJKg(101)).toThrow(RangeError);
  });
});

describe('vapourDensityKgM3()', () => {
  // IF97 pressure through the ideal gas, computed [g/m³]. 0.1 %: rounding and the fit.
  const rows: [tempC: number, gramsM3: number][] = [
    [0, 4.85],
    [20, 17.29],
    [25, 23.04],
    [40, 51.09],
    [60, 129.72],
    [80, 290.91],
  ];
  for (const [tempC, gramsM3] of rows) {
    test(`vapourDensityKgM3() of saturated air at ${tempC} °C is ${gramsM3} g/m³ within 0.1 %`, () => {
      expect(percentOff(vapourDensityKgM3(tempC, 100) * 1000, gramsM3)).toBeLessThan(0.1);
    });
  }
  test('vapourDensityKgM3() repeats the worked value of its page', () => {
    expect(vapourDensityKgM3(40, 100)).toBeCloseTo(0.05108, 5);
  });
  test('vapourDensityKgM3() is proportional to relative humidity and 0 in dry air', () => {
    expect(vapourDensityKgM3(30, 50)).toBeCloseTo(vapourDensityKgM3(30, 100) / 2, 12);
    expect(vapourDensityKgM3(30, 0)).toBe(0);
  });
  test('vapourDensityKgM3() refuses -1 %RH', () => {
    expect(() => vapourDensityKgM3(20, -1)).toThrow(RangeError);
  });
});
