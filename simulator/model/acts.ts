/**
 * What hands do to a pile. It never advises: how to do it without breathing dust or burning hands is said by the pages
 * that show it.
 */
import { latentHeatJKg } from '../../shared/water.ts';
import type { Air } from './air.ts';
import { aliveFrac, dryKgM2, heatCapacityJM2K, type Layer, waterHeatJKgK } from './layer.ts';
import { heldHeatJ } from './ledger.ts';
import { blendOf } from './material.ts';
import { freshOxygenFrac, type Ingredient, mixOf, type Pile, pileDepthM, type Shed } from './pile.ts';
import { starch } from './stoichiometry.ts';

export type PileAct =
  | { readonly kind: 'turn' }
  /** Water given from above [kg] and its temperature [°C]. */
  | { readonly kind: 'water'; readonly waterKg: number; readonly tempC?: number | undefined }
  | { readonly kind: 'spread'; readonly depthM: number }
  | { readonly kind: 'heap'; readonly depthM: number }
  | { readonly kind: 'cover'; readonly cover: 'breathable' | 'closed' }
  | { readonly kind: 'uncover' }
  | { readonly kind: 'shade'; readonly shadeFrac?: number | undefined }
  | { readonly kind: 'shed'; readonly shed: Shed }
  | { readonly kind: 'fan'; readonly windMS: number }
  /** Stirs more material in, e.g. dry bran into a wet pile, or soil for the next stage. */
  | { readonly kind: 'mix'; readonly ingredients: readonly Ingredient[]; readonly tempC?: number | undefined };

/** How well each way of handling mixes the layers [-], and how much of its heat above the air it gives off [-]. */
const handling = {
  // A heap turned by fork loses about half its excess: 40 °C falls to 35 °C in a room of 30 °C (published koji description).
  turn: { mixed: 0.85, cooled: 0.45 },
  // Assumptions: raking out mixes less than turning, and cools about as much.
  spread: { mixed: 0.5, cooled: 0.4 },
  heap: { mixed: 0.5, cooled: 0.3 },
  mix: { mixed: 0.95, cooled: 0.35 },
} as const;
/** Of the heat given off while handled, the share that goes as vapour [-]: assumption; steam is what one sees. */
const steamShare = 0.5;

/** Does one act now. @param air The air at the pile. @throws {RangeError} If an amount or a depth is out of range. */
export function actOn(pile: Pile, act: PileAct, air: Air): void {
  switch (act.kind) {
    case 'turn':
      handle(pile, air, handling.turn);
      break;
    case 'water':
      water(pile, act.waterKg, act.tempC ?? air.tempC);
      break;
    case 'spread':
    case 'heap':
      layAnew(pile, act.depthM, air, handling[act.kind]);
      break;
    case 'mix':
      mixIn(pile, act.ingredients, act.tempC ?? air.tempC, air);
      break;
    case 'cover':
      pile.cover = act.cover;
      break;
    case 'uncover':
      pile.cover = 'open';
      break;
    case 'shade':
      pile.shadeFrac = Math.max(pile.shadeFrac, act.shadeFrac ?? 0.9);
      break;
    case 'shed':
      pile.shed = act.shed;
      break;
    case 'fan':
      pile.fanMS = act.windMS;
      break;
  }
}

/** Mixes layers towards their mean, lets fresh air in, loosens the packing and gives off heat and steam. */
function handle(pile: Pile, air: Air, { mixed, cooled }: { readonly mixed: number; readonly cooled: number }): void {
  const { layers, material, footprintM2, ledger } = pile;
  // What each layer holds is shared out; temperature follows from heat, so that nothing is made or lost by mixing.
  const heats = layers.map((layer) => heatCapacityJM2K(layer, material) * layer.tempC);
  const meanHeat = mean(heats);
  const means = masses.map((key) => mean(layers.map((layer) => layer[key])));
  layers.forEach((layer, i) => {
    masses.forEach((key, k) => {
      layer[key] += ((means[k] ?? 0) - layer[key]) * mixed;
    });
    const heat = (heats[i] ?? 0) + (meanHeat - (heats[i] ?? 0)) * mixed;
    layer.tempC = heat / heatCapacityJM2K(layer, material);
    coolInAir(pile, layer, air, cooled);
    layer.oxygenFrac = freshOxygenFrac;
    layer.bulkKgM3 = material.looseBulkKgM3;
    layer.driftKS = 0;
    layer.oxygenDriftS = 0;
  });
  const after = layers.reduce((sum, layer) => sum + heatCapacityJM2K(layer, material) * layer.tempC, 0);
  ledger.carriedJ += (after - heats.reduce((sum, heat) => sum + heat, 0)) * footprintM2;
}

/** Gives off `share` of the heat above the air, part of it as steam. */
function coolInAir(pile: Pile, layer: Layer, air: Air, share: number): void {
  const excessK = layer.tempC - air.tempC;
  if (excessK <= 0) return;
  const capacity = heatCapacityJM2K(layer, pile.material);
  const givenJM2 = capacity * excessK * share;
  const steamKgM2 = Math.min((givenJM2 * steamShare) / latentHeatJKg(layer.tempC), 0.2 * layer.waterKgM2);
  const after = capacity * layer.tempC - givenJM2 - steamKgM2 * waterHeatJKgK * layer.tempC;
  layer.waterKgM2 -= steamKgM2;
  layer.tempC = after / heatCapacityJM2K(layer, pile.material);
  pile.ledger.handsKg -= steamKgM2 * pile.footprintM2;
}

/** Water from a can: the upper layers take most of it, what a layer cannot hold goes on down. */
function water(pile: Pile, waterKg: number, tempC: number): void {
  refuseOutside('waterKg', waterKg, 0, 1e6);
  let leftKgM2 = waterKg / pile.footprintM2;
  const count = pile.layers.length;
  pile.layers.forEach((layer, i) => {
    const roomKgM2 = Math.max(0, pile.material.holdingDryBasis * dryKgM2(layer) - layer.waterKgM2);
    const last = i === count - 1;
    const takenKgM2 = last ? leftKgM2 : Math.min(roomKgM2, leftKgM2 * Math.min(1, 2 / (count - i)));
    const heat = heatCapacityJM2K(layer, pile.material) * layer.tempC + takenKgM2 * waterHeatJKgK * tempC;
    layer.waterKgM2 += takenKgM2;
    layer.tempC = heat / heatCapacityJM2K(layer, pile.material);
    layer.driftKS = 0;
    leftKgM2 -= takenKgM2;
  });
  pile.ledger.handsKg += waterKg;
  pile.ledger.carriedJ += waterKg * waterHeatJKgK * tempC;
}

/** Spreads thinner or heaps up: the same mass on another footprint. */
function layAnew(pile: Pile, depthM: number, air: Air, how: { readonly mixed: number; readonly cooled: number }): void {
  refuseOutside('depthM', depthM, 0.02, 5);
  handle(pile, air, how);
  const ratio = depthM / pileDepthM(pile);
  for (const layer of pile.layers) for (const key of masses) layer[key] *= ratio;
  pile.footprintM2 /= ratio;
}

/** Stirs more in: the pile grows in depth on the same footprint. */
function mixIn(pile: Pile, ingredients: readonly Ingredient[], tempC: number, air: Air): void {
  const { layers, footprintM2, ledger } = pile;
  const mix = mixOf(ingredients, 0);
  const heatBefore = heldHeatJ(layers, pile.material, footprintM2);
  const dryBefore = layers.reduce((sum, layer) => sum + dryKgM2(layer), 0) * footprintM2;
  const newMaterial = blendOf([
    { material: pile.material, dryKg: dryBefore },
    { material: mix.material, dryKg: mix.dryKg },
  ]);
  const perLayer = 1 / (footprintM2 * layers.length);
  const { readyFrac, slowFrac, mesophilesFrac, thermophilesFrac } = mix.material;
  const heats = layers.map((layer) => heatCapacityJM2K(layer, pile.material) * layer.tempC);
  const addedHeat = (mix.dryKg * mix.material.dryHeatJKgK + mix.ownWaterKg * waterHeatJKgK) * tempC * perLayer;
  pile.material = newMaterial;
  layers.forEach((layer, i) => {
    const dry = mix.dryKg * perLayer;
    layer.inertKgM2 += dry * (1 - readyFrac - slowFrac - mesophilesFrac - thermophilesFrac);
    layer.readyKgM2 += dry * readyFrac;
    layer.slowKgM2 += dry * slowFrac;
    layer.mesophilesKgM2 += dry * mesophilesFrac;
    layer.thermophilesKgM2 += dry * thermophilesFrac;
    layer.waterKgM2 += mix.ownWaterKg * perLayer;
    layer.tempC = ((heats[i] ?? 0) + addedHeat) / heatCapacityJM2K(layer, newMaterial);
  });
  ledger.carriedJ += heldHeatJ(layers, newMaterial, footprintM2) - heatBefore;
  ledger.handsKg += mix.ownWaterKg;
  ledger.carbonAddedKg += mix.dryKg * (readyFrac + slowFrac + mesophilesFrac + thermophilesFrac) * starch.carbonKgKg;
  handle(pile, air, handling.mix);
}

/** Wanted cells alive over the whole pile, of all that grew [-]. */
export function pileAliveFrac(pile: Pile): number {
  const grown = pile.layers.reduce((sum, layer) => sum + layer.mesophilesKgM2 + layer.deadKgM2, 0);
  return grown > 0
    ? pile.layers.reduce((sum, l) => sum + aliveFrac(l) * (l.mesophilesKgM2 + l.deadKgM2), 0) / grown
    : 1;
}

const masses = [
  'waterKgM2',
  'inertKgM2',
  'readyKgM2',
  'slowKgM2',
  'mesophilesKgM2',
  'thermophilesKgM2',
  'deadKgM2',
] as const satisfies readonly (keyof Layer)[];

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function refuseOutside(name: string, value: number, min: number, max: number): void {
  if (!(value >= min && value <= max)) {
    throw new RangeError(
      `Cannot do this to a pile as ${name} must be within ${min}..${max}: current value is ${value}`,
    );
  }
}
