import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { climateWeather, mildClimate } from '../../../simulator/model/climate.ts';
import { dryKgM2 } from '../../../simulator/model/layer.ts';
import { createPile, type Pile, type PileRecipe } from '../../../simulator/model/pile.ts';
import { runPile, stepPile } from '../../../simulator/model/step-pile.ts';
import { steadyAir } from '../../helpers/steady-air.ts';

const recipe: PileRecipe = {
  ingredients: [{ material: 'wheat-bran', massKg: 60 }],
  moistureFrac: 0.6,
  doseFrac: 0.006,
  depthM: 0.28,
  tempC: 20,
  startMs: 0,
  cover: 'breathable',
};
const room = steadyAir({ tempC: 20, rhPct: 65, windMS: 0.5 });

function coreC(pile: Pile): number {
  return pile.layers[Math.floor(pile.layers.length / 2)]?.tempC ?? Number.NaN;
}

/** About a square metre, whatever the depth. */
function bed(depthM: number): Partial<PileRecipe> {
  return { ingredients: [{ material: 'wheat-bran', massKg: 200 * depthM }], depthM };
}

/** Hours until the core first reaches a temperature; NaN when it never does. */
function hoursTo(tempC: number, changes: Partial<PileRecipe>, hours = 240): number {
  const pile = createPile({ ...recipe, ...changes });
  for (let hour = 1; hour <= hours; hour += 1) {
    runPile(pile, room, hour * 3_600_000);
    if (coreC(pile) >= tempC) return hour;
  }
  return Number.NaN;
}

function coreSeries(changes: Partial<PileRecipe>, hours: number): number[] {
  const pile = createPile({ ...recipe, ...changes });
  return Array.from({ length: hours }, (_, hour) => {
    runPile(pile, room, (hour + 1) * 3_600_000);
    return coreC(pile);
  });
}

describe('stepPile()', () => {
  test('stepPile() twice over the same pile and weather gives the same pile', () => {
    const weather = climateWeather(mildClimate, 3);
    const [one, two] = [createPile(recipe), createPile(recipe)];
    runPile(one, weather, 5 * 86_400_000);
    runPile(two, weather, 5 * 86_400_000);
    expect(one).toEqual(two);
  });
  test('stepPile() of a pile that went through JSON gives the same pile', () => {
    const one = createPile(recipe);
    runPile(one, room, 86_400_000);
    const two: Pile = JSON.parse(JSON.stringify(one));
    runPile(one, room, 3 * 86_400_000);
    runPile(two, room, 3 * 86_400_000);
    expect(two).toEqual(one);
  });
  test('stepPile() refuses a step of 0, of 301 s and of NaN', () => {
    for (const stepS of [0, 301, Number.NaN])
      expect(() => stepPile(createPile(recipe), room, stepS)).toThrow(RangeError);
  });
  test('stepPile() keeps every pile within what can be, whatever is laid and whatever the weather', () => {
    fc.assert(
      fc.property(
        fc.record({
          material: fc.constantFrom('wheat-bran', 'rice-bran', 'soil', 'finished-compost', 'fermented-bran'),
          moistureFrac: fc.double({ min: 0.02, max: 0.9, noNaN: true }),
          doseFrac: fc.double({ min: 0, max: 0.1, noNaN: true }),
          depthM: fc.double({ min: 0.03, max: 2, noNaN: true }),
          tempC: fc.double({ min: -5, max: 45, noNaN: true }),
          cover: fc.constantFrom('open', 'breathable', 'closed'),
          layerCount: fc.integer({ min: 3, max: 20 }),
          fanMS: fc.double({ min: 0, max: 8, noNaN: true }),
          meanC: fc.double({ min: -15, max: 38, noNaN: true }),
          rainShare: fc.double({ min: 0, max: 0.6, noNaN: true }),
          seed: fc.integer({ min: 0, max: 1e6 }),
        }),
        ({ material, meanC, rainShare, seed, ...rest }) => {
          const weather = climateWeather({ ...mildClimate, meanC, rainShare }, seed);
          const pile = createPile({
            ...rest,
            ingredients: [{ material, massKg: 50, moistureFrac: 0.01 }],
            startMs: 0,
          } as PileRecipe);
          for (let day = 1; day <= 4; day += 1) {
            runPile(pile, weather, day * 86_400_000);
            for (const layer of pile.layers) {
              expect(layer.tempC).toBeGreaterThan(-45);
              expect(layer.tempC).toBeLessThan(80);
              expect(layer.oxygenFrac).toBeGreaterThanOrEqual(0);
              expect(layer.oxygenFrac).toBeLessThan(0.2096);
              for (const [name, kg] of Object.entries(layer))
                if (name.endsWith('KgM2')) expect(kg).toBeGreaterThanOrEqual(0);
              expect(dryKgM2(layer)).toBeGreaterThan(0);
            }
          }
        },
      ),
      { seed: 11, numRuns: 30 },
    );
  });
});

describe('a pile of bran', () => {
  test('warms to 40 °C within 24 to 72 h of being laid at 20 °C', () => {
    // Cornell composting pages: an indoor vessel reaches 40-50 °C in 2-3 days; growers say 24-48 h (common practice, no source).
    const hours = hoursTo(40, {});
    expect(hours).toBeGreaterThanOrEqual(24);
    expect(hours).toBeLessThanOrEqual(72);
  });
  test('warms sooner with more starter', () => {
    expect(hoursTo(35, { doseFrac: 0.05 })).toBeLessThan(hoursTo(35, { doseFrac: 0.005 }));
    expect(hoursTo(35, { doseFrac: 0.005 })).toBeLessThan(hoursTo(35, { doseFrac: 0 }));
  });
  test('grows hotter when it is deeper on the same footprint', () => {
    const peak = (depthM: number) => Math.max(...coreSeries(bed(depthM), 240));
    expect(peak(0.4)).toBeGreaterThan(peak(0.2) + 5);
  });
  test('has two humps when it is deep: growth brakes near 45 °C, then a second group takes it beyond 50 °C', () => {
    const temps = coreSeries(bed(0.4), 240);
    const plateau = temps.slice(36, 54);
    expect(Math.max(...plateau)).toBeLessThan(46);
    expect(Math.min(...plateau)).toBeGreaterThan(40);
    expect(Math.max(...temps.slice(54))).toBeGreaterThan(50);
  });
  test('hardly warms below 35 % moisture and runs out of air when it is fine and too wet', () => {
    expect(Math.max(...coreSeries({ moistureFrac: 0.28 }, 120))).toBeLessThan(30);
    const pile = createPile({
      ...recipe,
      ingredients: [{ material: 'rice-bran', massKg: 60 }],
      moistureFrac: 0.7,
      depthM: 0.35,
    });
    runPile(pile, room, 72 * 3_600_000);
    expect(pile.layers[4]?.oxygenFrac ?? 1).toBeLessThan(0.01);
    expect(pile.layers[4]?.tempC ?? 99).toBeLessThan(28);
  });
  test('comes down to within 5 °C of the air within ten days', () => {
    expect((coreSeries(bed(0.2), 240).at(-1) ?? 99) - 20).toBeLessThan(5);
  });
  test('dries although it makes water: evaporation takes more than metabolism gives', () => {
    const pile = createPile({ ...recipe, ...bed(0.25) });
    runPile(pile, room, 120 * 3_600_000);
    const { metabolicWaterKg, surfaceEvaporatedKg, draughtEvaporatedKg } = pile.ledger;
    expect(metabolicWaterKg).toBeGreaterThan(0.3);
    expect(surfaceEvaporatedKg + draughtEvaporatedKg).toBeGreaterThan(2 * metabolicWaterKg);
  });
  test('loses its wanted culture where it grows too hot, and keeps it where it does not', () => {
    const hot = createPile({ ...recipe, ...bed(0.4) });
    const mild = createPile({ ...recipe, ...bed(0.2) });
    for (const pile of [hot, mild]) runPile(pile, room, 240 * 3_600_000);
    const alive = (pile: Pile) => {
      const core = pile.layers[2];
      return core === undefined ? Number.NaN : core.mesophilesKgM2 / (core.mesophilesKgM2 + core.deadKgM2);
    };
    expect(alive(hot)).toBeLessThan(0.3);
    expect(alive(mild)).toBeGreaterThan(0.9);
  });
});
