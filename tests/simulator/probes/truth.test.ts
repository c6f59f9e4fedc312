import { describe, expect, test } from 'vitest';
import { createPile } from '../../../simulator/model/pile.ts';
import { runPile } from '../../../simulator/model/step-pile.ts';
import { truthAt } from '../../../simulator/probes/truth.ts';
import { steadyAir } from '../../helpers/steady-air.ts';

const weather = steadyAir({ tempC: 15, rhPct: 70 });
const air = weather(0);
const pile = createPile({
  ingredients: [{ material: 'wheat-bran', massKg: 60 }],
  moistureFrac: 0.6,
  doseFrac: 0.01,
  depthM: 0.3,
  tempC: 20,
  startMs: 0,
  cover: 'breathable',
});
runPile(pile, weather, 40 * 3_600_000);
const at = (position: Parameters<typeof truthAt>[2], depthM?: number) => truthAt(pile, air, position, depthM);

describe('truthAt()', () => {
  test('truthAt() is warmest in the core, cooler at top and edge, and the air is the air', () => {
    expect(at('core').tempC).toBeGreaterThan(at('top').tempC);
    expect(at('top').tempC).toBeGreaterThan(at('edge').tempC - 20);
    expect(at('edge').tempC).toBeCloseTo((at('core').tempC + 15) / 2, 9);
    expect(at('air')).toEqual({ tempC: 15, rhPct: 70, moisturePct: 0, co2Ppm: 420 });
  });
  test('truthAt() runs without a jump from skin to soil', () => {
    let last = at('core', 0).tempC;
    expect(last).toBeCloseTo(pile.surfaceC, 9);
    for (let depthM = 0; depthM <= 0.3; depthM += 0.002) {
      const here = at('core', depthM).tempC;
      expect(Math.abs(here - last)).toBeLessThan(1.5);
      last = here;
    }
  });
  test('truthAt() sees damp pores saturated and carbon dioxide where oxygen was used', () => {
    expect(at('core').rhPct).toBeGreaterThan(99);
    expect(at('base').co2Ppm).toBeGreaterThan(20_000);
    expect(at('core').moisturePct).toBeGreaterThan(20);
  });
});
