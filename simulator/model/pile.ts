/**
 * A pile as data, and how one is laid. It never moves time on (see step-pile.ts) or lets a hand touch it (see acts.ts).
 */
import { defaultKinetics, type Kinetics } from './kinetics.ts';
import { dryKgM2, type Layer, thicknessM } from './layer.ts';
import { createLedger, type Ledger } from './ledger.ts';
import { blendOf, type Material, type MaterialName, materials } from './material.ts';

export type PileCover = 'open' | 'breathable' | 'closed';
/** No shed, a roof on posts, or a shed with its doors shut. */
export type Shed = 'none' | 'roof' | 'closed';

export interface Pile {
  atMs: number;
  readonly layers: Layer[];
  /** Soil under the pile, from the pile down [°C]: 5, 15 and 40 cm thick. */
  readonly groundC: [number, number, number];
  /** Soil below that, which the pile never reaches [°C]. */
  deepGroundC: number;
  /** Conductivity of what lies under the pile [W m⁻¹ K⁻¹]: 1 for moist soil, 0.1 for pallets with straw, 0 for none at all. */
  groundWmK: number;
  footprintM2: number;
  /** Blend of all that was mixed in. */
  material: Material;
  cover: PileCover;
  shed: Shed;
  /** Share of sun and sky kept off by trees or netting [-]. */
  shadeFrac: number;
  /** Air that a fan blows over the pile [m s⁻¹]. */
  fanMS: number;
  /** Air inside the shed [°C]; follows the air outside with a lag. */
  shedAirC: number;
  /** Surface of the pile as last solved [°C]. */
  surfaceC: number;
  readonly kinetics: Kinetics;
  readonly ledger: Ledger;
}

export interface Ingredient {
  readonly material: MaterialName | Material;
  /** Mass as put in, its own water included [kg]. */
  readonly massKg: number;
  /** Its own moisture, wet basis [-]; as bought when left out. */
  readonly moistureFrac?: number | undefined;
}

export interface PileRecipe {
  readonly ingredients: readonly Ingredient[];
  /** Wanted moisture after mixing, wet basis [-]: water is added until it is reached, never taken away. */
  readonly moistureFrac: number;
  /** Starter culture over the wet mass [-]; 0 for none. */
  readonly doseFrac: number;
  readonly depthM: number;
  readonly tempC: number;
  readonly startMs: number;
  readonly cover?: PileCover | undefined;
  readonly shed?: Shed | undefined;
  readonly shadeFrac?: number | undefined;
  readonly fanMS?: number | undefined;
  /** Soil under the pile [°C]; as warm as the mix when left out. */
  readonly groundC?: number | undefined;
  /** Conductivity of what lies under the pile [W m⁻¹ K⁻¹]; moist soil, 1, when left out. */
  readonly groundWmK?: number | undefined;
  readonly layerCount?: number | undefined;
  readonly kinetics?: Kinetics | undefined;
}

/**
 * Lays a pile, evenly mixed.
 *
 * @throws {RangeError} If a mass, the depth, the moisture or the number of layers (3..20) is out of range.
 */
export function createPile(recipe: PileRecipe): Pile {
  const { depthM, tempC, layerCount = 5, kinetics = defaultKinetics } = recipe;
  refuseOutside('layerCount', layerCount, 3, 20);
  refuseOutside('depthM', depthM, 0.02, 5);
  refuseOutside('moistureFrac', recipe.moistureFrac, 0, 0.95);
  refuseOutside('doseFrac', recipe.doseFrac, 0, 1);
  const mix = mixOf(recipe.ingredients, recipe.moistureFrac);
  const { material, dryKg, waterKg } = mix;
  const footprintM2 = dryKg / (material.looseBulkKgM3 * depthM);
  const layerDryKgM2 = dryKg / footprintM2 / layerCount;
  const layerWaterKgM2 = waterKg / footprintM2 / layerCount;
  const starterKgM2 = recipe.doseFrac * (layerDryKgM2 + layerWaterKgM2) * kinetics.starterFrac;
  const { readyFrac, slowFrac, mesophilesFrac, thermophilesFrac } = material;
  const layers = Array.from({ length: layerCount }, (): Layer => {
    const cellsKgM2 = mesophilesFrac * layerDryKgM2 + starterKgM2;
    return {
      tempC,
      waterKgM2: layerWaterKgM2,
      inertKgM2: layerDryKgM2 * (1 - readyFrac - slowFrac - mesophilesFrac - thermophilesFrac) - starterKgM2,
      readyKgM2: layerDryKgM2 * readyFrac,
      slowKgM2: layerDryKgM2 * slowFrac,
      mesophilesKgM2: cellsKgM2,
      thermophilesKgM2: layerDryKgM2 * thermophilesFrac,
      deadKgM2: 0,
      oxygenFrac: freshOxygenFrac,
      bulkKgM3: material.looseBulkKgM3,
      driftKS: 0,
      oxygenDriftS: 0,
    };
  });
  const groundC = recipe.groundC ?? tempC;
  return {
    atMs: recipe.startMs,
    layers,
    groundC: [groundC, groundC, groundC],
    deepGroundC: groundC,
    groundWmK: recipe.groundWmK ?? 1,
    footprintM2,
    material,
    cover: recipe.cover ?? 'open',
    shed: recipe.shed ?? 'none',
    shadeFrac: recipe.shadeFrac ?? 0,
    fanMS: recipe.fanMS ?? 0,
    shedAirC: tempC,
    surfaceC: tempC,
    kinetics,
    ledger: createLedger(),
  };
}

/** Oxygen in fresh air by volume [-]. */
export const freshOxygenFrac = 0.2095;

/** Dry mass, water and blend of ingredients, with water added up to the wanted moisture. */
export function mixOf(ingredients: readonly Ingredient[], moistureFrac: number) {
  const shares = ingredients.map(({ material, massKg, moistureFrac: own }) => {
    refuseOutside('massKg', massKg, 0, 1e7);
    const facts = typeof material === 'string' ? materials[material] : material;
    const ownWaterKg = massKg * (own ?? facts.asBoughtMoistureFrac);
    return { material: facts, dryKg: massKg - ownWaterKg, waterKg: ownWaterKg };
  });
  const dryKg = shares.reduce((sum, share) => sum + share.dryKg, 0);
  const ownWaterKg = shares.reduce((sum, share) => sum + share.waterKg, 0);
  const wantedWaterKg = (dryKg * moistureFrac) / (1 - moistureFrac);
  return { material: blendOf(shares), dryKg, ownWaterKg, waterKg: Math.max(ownWaterKg, wantedWaterKg) };
}

/** Depth of the pile now [m]. */
export function pileDepthM(pile: Pile): number {
  return pile.layers.reduce((sum, layer) => sum + thicknessM(layer), 0);
}

/** Wet mass of the pile now [kg]. */
export function pileMassKg(pile: Pile): number {
  return pile.footprintM2 * pile.layers.reduce((sum, layer) => sum + dryKgM2(layer) + layer.waterKgM2, 0);
}

function refuseOutside(name: string, value: number, min: number, max: number): void {
  if (!(value >= min && value <= max)) {
    throw new RangeError(`Cannot lay a pile as ${name} must be within ${min}..${max}: current value is ${value}`);
  }
}
