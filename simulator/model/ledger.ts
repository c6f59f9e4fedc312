/** The books of a pile, from which its balances are proved. */
import { heatCapacityJM2K, type Layer } from './layer.ts';
import type { Material } from './material.ts';

/** Totals since the pile was laid: heat [J], water and carbon dioxide [kg]. In is positive. */
export interface Ledger {
  /** Heat set free by the microbes. */
  oxidationJ: number;
  /** Through the surface, by contact, radiation and evaporation. */
  surfaceJ: number;
  groundJ: number;
  sidesJ: number;
  /** Carried by air drawn through the pile, vapour included. */
  draughtJ: number;
  /** Carried by water and matter that came, went or changed, and by hands. */
  carriedJ: number;
  metabolicWaterKg: number;
  surfaceEvaporatedKg: number;
  draughtEvaporatedKg: number;
  rainKg: number;
  drainedKg: number;
  /** Added or lost by hands. */
  handsKg: number;
  burntKg: number;
  oxygenKg: number;
  carbonDioxideKg: number;
  /** Carbon brought by hands after the pile was laid [kg]. */
  carbonAddedKg: number;
}

export function createLedger(): Ledger {
  return {
    oxidationJ: 0,
    surfaceJ: 0,
    groundJ: 0,
    sidesJ: 0,
    draughtJ: 0,
    carriedJ: 0,
    metabolicWaterKg: 0,
    surfaceEvaporatedKg: 0,
    draughtEvaporatedKg: 0,
    rainKg: 0,
    drainedKg: 0,
    handsKg: 0,
    burntKg: 0,
    oxygenKg: 0,
    carbonDioxideKg: 0,
    carbonAddedKg: 0,
  };
}

/** Heat held above 0 °C [J]. */
export function heldHeatJ(layers: readonly Layer[], material: Material, footprintM2: number): number {
  return footprintM2 * layers.reduce((sum, layer) => sum + heatCapacityJM2K(layer, material) * layer.tempC, 0);
}
