/**
 * What truly was in a scenario, every ten minutes: temperatures by position, moisture, oxygen, food and metabolic state. The
 * judge is measured against it and is asked nothing.
 */
import { actOn } from '../../../simulator/model/acts.ts';
import type { Air } from '../../../simulator/model/air.ts';
import { climateWeather } from '../../../simulator/model/climate.ts';
import { waterActivity } from '../../../simulator/model/factors.ts';
import { defaultKinetics, type GroupKinetics, type Kinetics } from '../../../simulator/model/kinetics.ts';
import { dryKgM2 } from '../../../simulator/model/layer.ts';
import { materials, type Material as SimMaterial } from '../../../simulator/model/material.ts';
import { createPile, type Ingredient, type Pile } from '../../../simulator/model/pile.ts';
import { createRandom, type Random } from '../../../simulator/model/random.ts';
import { airAtPile } from '../../../simulator/model/shelter.ts';
import { runPile } from '../../../simulator/model/step-pile.ts';
import type { Scenario } from './scenario.ts';

export const sampleMin = 10;
export const samplesPerHour = 60 / sampleMin;

export interface World {
  readonly samples: number;
  readonly coreC: Float64Array;
  readonly topC: Float64Array;
  readonly baseC: Float64Array;
  readonly airC: Float64Array;
  readonly airRhPct: Float64Array;
  readonly coreRhPct: Float64Array;
  /** Water over wet mass of the whole pile [-]. */
  readonly moistureFrac: Float64Array;
  /** Lowest oxygen of any layer by volume [-]. */
  readonly oxygenFrac: Float64Array;
  /** Food eaten so far, over the ready food as laid [-]. */
  readonly eatenShare: Float64Array;
  /** Rain since the pile was laid, on nothing [mm]. */
  readonly rainMm: Float64Array;
}

export function runWorld(scenario: Scenario): World {
  const random = createRandom(scenario.seed ^ 0x5eed);
  const pile = layPile(scenario, random);
  const weather = climateWeather(scenario.climate, scenario.seed);
  const world = emptyWorld(scenario.days);
  const sampler = sampleInto(world, pile);
  const hands = [...scenario.hands].sort((one, other) => one.hour - other.hour);
  for (let sample = 0; sample < world.samples; sample += 1) {
    const atMs = scenario.startMs + sample * sampleMin * 60_000;
    runPile(pile, weather, atMs);
    const air = airAtPile(pile, weather(atMs), 1);
    for (let next = hands[0]; next !== undefined && next.hour * samplesPerHour <= sample; next = hands[0]) {
      hands.shift();
      sampler.handled(() => actOn(pile, next.act, air));
    }
    sampler.take(sample, air);
  }
  return world;
}

export function emptyWorld(days: number): World {
  const samples = days * 24 * samplesPerHour + 1;
  const make = (): Float64Array => new Float64Array(samples);
  return {
    samples,
    coreC: make(),
    topC: make(),
    baseC: make(),
    airC: make(),
    airRhPct: make(),
    coreRhPct: make(),
    moistureFrac: make(),
    oxygenFrac: make(),
    eatenShare: make(),
    rainMm: make(),
  };
}

/** Writes what is true of a pile into a world, sample by sample; call `handled` around whatever may bring in new food. */
export function sampleInto(world: World, pile: Pile) {
  const foodAtStart = food(pile);
  const readyAtStart = Math.max(1e-9, ready(pile));
  let added = 0;
  return {
    handled(act: () => void): void {
      const before = food(pile);
      act();
      added += food(pile) - before;
    },
    take(sample: number, air: Pick<Air, 'tempC' | 'rhPct' | 'rainMmH'>): void {
      const { layers } = pile;
      const core = layers[Math.floor(layers.length / 2)];
      const top = layers[0];
      const base = layers.at(-1);
      if (core === undefined || top === undefined || base === undefined) return;
      world.coreC[sample] = core.tempC;
      world.topC[sample] = top.tempC;
      world.baseC[sample] = base.tempC;
      world.airC[sample] = air.tempC;
      world.airRhPct[sample] = air.rhPct;
      const dryBasis = core.waterKgM2 / dryKgM2(core);
      world.coreRhPct[sample] = 100 * (dryBasis > 0.6 ? 1 : waterActivity(Math.min(99, core.tempC), dryBasis));
      let water = 0;
      let dry = 0;
      let oxygen = 1;
      for (const layer of layers) {
        water += layer.waterKgM2;
        dry += dryKgM2(layer);
        oxygen = Math.min(oxygen, layer.oxygenFrac);
      }
      world.moistureFrac[sample] = water / (water + dry);
      world.oxygenFrac[sample] = oxygen;
      world.rainMm[sample] = (world.rainMm[sample - 1] ?? 0) + air.rainMmH / samplesPerHour;
      world.eatenShare[sample] = (foodAtStart + added - food(pile)) / readyAtStart;
    },
  };
}

function food(pile: Pile): number {
  return pile.layers.reduce((sum, layer) => sum + layer.readyKgM2 + layer.slowKgM2, 0) * pile.footprintM2;
}

function ready(pile: Pile): number {
  return pile.layers.reduce((sum, layer) => sum + layer.readyKgM2, 0) * pile.footprintM2;
}

function layPile(scenario: Scenario, random: Random): Pile {
  return createPile({
    ingredients: feed(shiftIngredients(ingredientsOf(scenario), scenario.shift, random), scenario.heatRatio ?? 1),
    moistureFrac: scenario.moistureFrac,
    doseFrac: scenario.doseFrac,
    depthM: scenario.depthM,
    tempC: scenario.tempC,
    startMs: scenario.startMs,
    cover: scenario.cover,
    shed: scenario.shed,
    shadeFrac: scenario.shadeFrac,
    fanMS: scenario.fanMS,
    kinetics: shiftKinetics(defaultKinetics, scenario.shift, random),
  });
}

export function ingredientsOf({ material, massKg }: Pick<Scenario, 'material' | 'massKg'>): Ingredient[] {
  switch (material) {
    case 'soil-mix':
      return [
        { material: 'fermented-bran', massKg: massKg / 2 },
        { material: 'soil', massKg: massKg / 2 },
      ];
    case 'compost-mix':
      return [
        { material: 'fermented-bran', massKg: massKg / 2 },
        { material: 'finished-compost', massKg: massKg / 2 },
      ];
    default:
      return [{ material: material === 'rice-bran' ? 'rice-bran' : 'wheat-bran', massKg }];
  }
}

export function shiftIngredients(ingredients: readonly Ingredient[], shift: number, random: Random): Ingredient[] {
  return ingredients.map((ingredient) => {
    const { material } = ingredient;
    return {
      ...ingredient,
      material: shiftAll(typeof material === 'string' ? materials[material] : material, shift, random),
    };
  });
}

/** So much more or less food in the same material. */
export function feed(ingredients: readonly Ingredient[], ratio: number): Ingredient[] {
  if (ratio === 1) return [...ingredients];
  return ingredients.map((ingredient) => {
    const { material } = ingredient;
    const one = typeof material === 'string' ? materials[material] : material;
    const fed = { ...one, readyFrac: one.readyFrac * ratio, slowFrac: Math.min(0.9, one.slowFrac * ratio) };
    return { ...ingredient, material: fed };
  });
}

function shiftAll<T extends SimMaterial>(material: T, shift: number, random: Random): T {
  if (shift === 0) return material;
  const moved: Record<string, number> = {};
  for (const [key, value] of Object.entries(material)) moved[key] = value * random.between(1 - shift, 1 + shift);
  return { ...material, ...moved };
}

/** Growth constants all moved; temperatures by a tenth of that, as 20 % of a temperature in °C has no meaning. */
export function shiftKinetics(kinetics: Kinetics, shift: number, random: Random): Kinetics {
  if (shift === 0) return kinetics;
  const by = (value: number, share = shift): number => value * random.between(1 - share, 1 + share);
  const group = (one: GroupKinetics): GroupKinetics => {
    const moveC = random.between(-1, 1) * shift * 10;
    return {
      ...one,
      temps: { minC: one.temps.minC + moveC, optC: one.temps.optC + moveC, maxC: one.temps.maxC + moveC },
      growthPerH: by(one.growthPerH),
      decayPerH: by(one.decayPerH),
      deathTenthH: by(one.deathTenthH),
      deathRefC: one.deathRefC + moveC,
    };
  };
  return {
    ...kinetics,
    mesophiles: group(kinetics.mesophiles),
    thermophiles: group(kinetics.thermophiles),
    yieldKgKg: by(kinetics.yieldKgKg),
    readyHalfFrac: by(kinetics.readyHalfFrac),
    breakdownPerH: by(kinetics.breakdownPerH),
    breakdownHalfFrac: by(kinetics.breakdownHalfFrac),
    starterFrac: by(kinetics.starterFrac),
  };
}
