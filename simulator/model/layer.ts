/** One layer of a pile, and what follows from its contents. */
import type { Material } from './material.ts';

/** Specific heat of liquid water and of water vapour [J kg⁻¹ K⁻¹]. */
export const waterHeatJKgK = 4186;
/** What vapour holds more per kelvin, so that its enthalpy fits `latentHeatJKg`: 4186 − 2361. */
export const vapourHeatJKgK = waterHeatJKgK - 2361;
/** Latent heat at 0 °C, as in `latentHeatJKg` [J kg⁻¹]. */
export const latentHeatZeroJKg = 2_501_000;

/** State of a layer; masses are per m² of footprint. */
export interface Layer {
  tempC: number;
  waterKgM2: number;
  /** Solids nothing can eat. */
  inertKgM2: number;
  /** Food taken up at once, and food that must be broken down first. */
  readyKgM2: number;
  slowKgM2: number;
  /** Living cells of both groups, and wanted (mesophilic) cells killed by heat. */
  mesophilesKgM2: number;
  thermophilesKgM2: number;
  deadKgM2: number;
  /** Oxygen in the pore air by volume [-]. */
  oxygenFrac: number;
  /** Dry mass per volume as packed now [kg m⁻³]. */
  bulkKgM3: number;
  /** How fast temperature and oxygen moved in the last step [K s⁻¹, s⁻¹]; lets the next step look half a step ahead. */
  driftKS: number;
  oxygenDriftS: number;
}

export function dryKgM2(layer: Layer): number {
  return (
    layer.inertKgM2 + layer.readyKgM2 + layer.slowKgM2 + layer.mesophilesKgM2 + layer.thermophilesKgM2 + layer.deadKgM2
  );
}

export function thicknessM(layer: Layer): number {
  return dryKgM2(layer) / layer.bulkKgM3;
}

/** Water over wet mass [-]. */
export function moistureFrac(layer: Layer): number {
  return layer.waterKgM2 / (layer.waterKgM2 + dryKgM2(layer));
}

/**
 * Share of the volume that is air: 1 − ρ_dry/ρ_particle − water volume [-], never below 0.01.
 *
 * @example Wheat bran, 176 kg/m³ dry, at 60 % moisture: 0.619.
 */
export function freeAirFrac(layer: Layer, material: Material): number {
  const waterVolume = (layer.waterKgM2 / dryKgM2(layer)) * (layer.bulkKgM3 / 1000);
  return Math.max(0.01, 1 - layer.bulkKgM3 / material.particleKgM3 - waterVolume);
}

/** Heat capacity per footprint [J m⁻² K⁻¹]. */
export function heatCapacityJM2K(layer: Layer, material: Material): number {
  return dryKgM2(layer) * material.dryHeatJKgK + layer.waterKgM2 * waterHeatJKgK;
}

/** Wanted cells still alive, of all that grew [-]; 1 where heat has killed none. */
export function aliveFrac(layer: Layer): number {
  const grown = layer.mesophilesKgM2 + layer.deadKgM2;
  return grown > 0 ? layer.mesophilesKgM2 / grown : 1;
}
