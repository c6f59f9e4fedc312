import { describe, expect, test } from 'vitest';
import { actOn } from '../../simulator/model/acts.ts';
import { climateWeather, mildClimate } from '../../simulator/model/climate.ts';
import { heldHeatJ } from '../../simulator/model/ledger.ts';
import { createPile, type Pile, type PileRecipe } from '../../simulator/model/pile.ts';
import { airAtPile } from '../../simulator/model/shelter.ts';
import { stepPile } from '../../simulator/model/step-pile.ts';
import { oxidationOf } from '../../simulator/model/stoichiometry.ts';
import { heldCarbonKg, heldWaterKg } from '../helpers/held-in-pile.ts';

const startMs = Date.UTC(2031, 5, 1);
const weather = climateWeather({ ...mildClimate, rainShare: 0.2 }, 5);
const bran: PileRecipe = {
  ingredients: [{ material: 'wheat-bran', massKg: 60 }],
  moistureFrac: 0.6,
  doseFrac: 0.006,
  depthM: 0.3,
  tempC: 18,
  startMs,
  cover: 'open',
};

const recipes: [name: string, recipe: PileRecipe][] = [
  ['wheat bran in the open, in rain and sun', bran],
  ['wheat bran in 20 layers', { ...bran, layerCount: 20 }],
  [
    'rice bran, too wet, under a mat',
    { ...bran, ingredients: [{ material: 'rice-bran', massKg: 60 }], moistureFrac: 0.72, cover: 'breathable' },
  ],
  [
    'a thin bed of soil and bran that dries out',
    {
      ...bran,
      ingredients: [
        { material: 'soil', massKg: 40 },
        { material: 'fermented-bran', massKg: 40 },
      ],
      moistureFrac: 0.4,
      depthM: 0.06,
      fanMS: 4,
      layerCount: 12,
    },
  ],
];

function heat(pile: Pile): { held: number; through: number; turnover: number } {
  const { oxidationJ, surfaceJ, groundJ, sidesJ, draughtJ, carriedJ } = pile.ledger;
  const flows = [oxidationJ, surfaceJ, groundJ, sidesJ, draughtJ, carriedJ];
  return {
    held: heldHeatJ(pile.layers, pile.material, pile.footprintM2),
    through: flows.reduce((sum, flow) => sum + flow, 0),
    turnover: flows.reduce((sum, flow) => sum + Math.abs(flow), 0),
  };
}

function water(pile: Pile): { held: number; through: number } {
  const { metabolicWaterKg, surfaceEvaporatedKg, draughtEvaporatedKg, rainKg, drainedKg, handsKg } = pile.ledger;
  return {
    held: heldWaterKg(pile.layers, pile.footprintM2),
    through: metabolicWaterKg - surfaceEvaporatedKg - draughtEvaporatedKg + rainKg - drainedKg + handsKg,
  };
}

function carbon(pile: Pile): { held: number; through: number } {
  const { carbonDioxideKg, carbonAddedKg } = pile.ledger;
  return {
    held: heldCarbonKg(pile.layers, pile.footprintM2),
    through: carbonAddedKg - carbonDioxideKg / oxidationOf(1, 0, 0).carbonDioxideKgKg,
  };
}

/** Fourteen days with every kind of hand in them. */
function twoWeeks(pile: Pile): void {
  for (let hour = 0; hour < 14 * 24; hour += 1) {
    const air = airAtPile(pile, weather(pile.atMs), 1);
    if (hour === 48) actOn(pile, { kind: 'turn' }, air);
    if (hour === 60) actOn(pile, { kind: 'water', waterKg: 5, tempC: 12 }, air);
    if (hour === 72) actOn(pile, { kind: 'spread', depthM: 0.2 }, air);
    if (hour === 100) actOn(pile, { kind: 'cover', cover: 'closed' }, air);
    if (hour === 150) actOn(pile, { kind: 'heap', depthM: 0.25 }, air);
    if (hour === 160) actOn(pile, { kind: 'shed', shed: 'closed' }, air);
    if (hour === 200) actOn(pile, { kind: 'mix', ingredients: [{ material: 'soil', massKg: 30 }], tempC: 10 }, air);
    for (let step = 0; step < 12; step += 1) stepPile(pile, weather, 300);
  }
}

for (const [name, recipe] of recipes) {
  // First law, conservation of water and of carbon. 1e-6 relative to what went through: rounding only.
  describe(`balances over 14 days: ${name}`, () => {
    const pile = createPile(recipe);
    const before = { heat: heat(pile), water: water(pile), carbon: carbon(pile) };
    twoWeeks(pile);
    test('energy held changes by what came in less what went out', () => {
      const after = heat(pile);
      expect(after.turnover).toBeGreaterThan(1e6);
      expect(Math.abs(after.held - before.heat.held - after.through) / after.turnover).toBeLessThan(1e-6);
    });
    test('water held changes by what was made, rained, given, evaporated and drained', () => {
      const after = water(pile);
      expect(Math.abs(after.held - before.water.held - after.through) / before.water.held).toBeLessThan(1e-6);
    });
    test('carbon held changes by what left as carbon dioxide', () => {
      const after = carbon(pile);
      expect(pile.ledger.carbonDioxideKg).toBeGreaterThan(0.1);
      expect(Math.abs(after.held - before.carbon.held - after.through) / before.carbon.held).toBeLessThan(1e-6);
    });
  });
}

describe('length of the step', () => {
  const coreOf = (recipe: PileRecipe, stepS: number): number[] => {
    const pile = createPile(recipe);
    const middle = pile.layers[Math.floor(pile.layers.length / 2)];
    const temps: number[] = [];
    for (let hour = 0; hour < 10 * 24; hour += 1) {
      for (let step = 0; step < 3600 / stepS; step += 1) stepPile(pile, weather, stepS);
      temps.push(middle?.tempC ?? Number.NaN);
    }
    return temps;
  };
  // Our own requirement: halving the 5 minute step moves the core by less than 0.05 °C at every hour of ten days.
  for (const [name, recipe] of recipes.slice(0, 3)) {
    test(`halving the step moves the core by less than 0.05 °C: ${name}`, () => {
      const whole = coreOf({ ...recipe, cover: 'breathable', shadeFrac: 0.8 }, 300);
      const half = coreOf({ ...recipe, cover: 'breathable', shadeFrac: 0.8 }, 150);
      expect(Math.max(...whole)).toBeGreaterThan(25);
      expect(Math.max(...whole.map((tempC, i) => Math.abs(tempC - (half[i] ?? Number.NaN))))).toBeLessThan(0.05);
    });
  }
});
