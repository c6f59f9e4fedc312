/**
 * What one step knows about each layer while it is being taken. It never lives on: a sheet is filled afresh in every
 * step, and nothing is kept in it between steps.
 */
import { latentHeatJKg, vapourDensityKgM3, waterVapourGasConstantJKgK, zeroCelsiusK } from '../../shared/water.ts';
import { waterActivity } from './factors.ts';
import { dryKgM2, freeAirFrac, type Layer, waterHeatJKgK } from './layer.ts';
import type { Pile } from './pile.ts';

export interface LayerWork {
  layer: Layer;
  above: LayerWork | undefined;
  below: LayerWork | undefined;
  dryKgM2: number;
  thicknessM: number;
  moistureFrac: number;
  freeAirFrac: number;
  /** At the start of the step [J m⁻² K⁻¹]. */
  capacityJM2K: number;
  /** Temperature half a step ahead [°C]. */
  midC: number;
  /** Relative humidity of the pore air [-]. */
  activity: number;
  /** Vapour in the pore air [kg m⁻³], and how it grows with temperature [kg m⁻³ K⁻¹]. */
  vapourKgM3: number;
  vapourSlopeKgM3K: number;
  /** Diffusion of a gas through the pores [m² s⁻¹]. */
  diffusionM2S: number;
  /** Conductivity of the mass, and what moving vapour adds to it [W m⁻¹ K⁻¹]. */
  conductivityWmK: number;
  vapourConductivityWmK: number;
  /** Air drawn in from the side, and passed on upwards [m s⁻¹]. */
  sideAirMS: number;
  upAirMS: number;
  /** Moisture factor and cardinal rates of both groups at `midC` [-]. */
  dampShare: number;
  mesophileRate: number;
  thermophileRate: number;
  /** Cells that wither or are killed by heat [s⁻¹]. */
  mesophileWitherPerS: number;
  mesophileDeathPerS: number;
  thermophileLossPerS: number;
  /** Growth with oxygen plentiful, whole step [kg m⁻²]. */
  mesophileGrowthKgM2: number;
  thermophileGrowthKgM2: number;
  /** Oxygen wanted if it were plentiful [kg m⁻² s⁻¹]. */
  oxygenWantedKgM2S: number;
  oxygenShare: number;
  /** Heat that goes into the layer in this step beside conduction [J m⁻²]. */
  heatInJM2: number;
  /** Water that leaves with drawn air in this step [kg m⁻²]. */
  draughtWaterKgM2: number;
  /** Ways for heat: up (out of the skin at the top), down (into the soil at the base), and to the sides [W m⁻² K⁻¹]. */
  linkUpWM2K: number;
  linkDownWM2K: number;
  linkSideWM2K: number;
  /** Mean temperature over the step, as conduction took it [°C]. */
  meanC: number;
  /** Heat held above 0 °C, while water is being moved [J m⁻²]. */
  heldJM2: number;
}

const sheets = new Map<number, LayerWork[]>();

/** Work sheets for `count` layers; the same ones each time, for a step is taken whole before the next begins. */
function sheetsFor(count: number): LayerWork[] {
  const kept = sheets.get(count);
  if (kept !== undefined) return kept;
  const made = Array.from({ length: count }, emptySheet);
  made.forEach((sheet, i) => {
    sheet.above = made[i - 1];
    sheet.below = made[i + 1];
  });
  sheets.set(count, made);
  return made;
}

/** Fills a sheet per layer, top first. @param stepS Length of the step that is about to be taken [s]. */
export function examine(pile: Pile, stepS: number): LayerWork[] {
  const all = sheetsFor(pile.layers.length);
  const { material } = pile;
  let i = 0;
  for (const layer of pile.layers) {
    const work = all[i];
    i += 1;
    if (work === undefined) break;
    const dry = dryKgM2(layer);
    const thickness = dry / layer.bulkKgM3;
    work.layer = layer;
    work.dryKgM2 = dry;
    work.thicknessM = thickness;
    work.moistureFrac = layer.waterKgM2 / (dry + layer.waterKgM2);
    work.freeAirFrac = freeAirFrac(layer, material);
    work.capacityJM2K = dry * material.dryHeatJKgK + layer.waterKgM2 * waterHeatJKgK;
    const midC = Math.min(99, Math.max(-39, layer.tempC + (layer.driftKS * stepS) / 2));
    work.midC = midC;

    // Pore air is as damp as the mass around it lets it be; above half its weight in water that is saturation.
    const dryBasis = layer.waterKgM2 / dry;
    const activity = dryBasis > 0.6 ? 1 : waterActivity(midC, dryBasis);
    const kelvin = midC + zeroCelsiusK;
    const latent = latentHeatJKg(midC);
    work.activity = activity;
    work.vapourKgM3 = vapourDensityKgM3(midC, 100 * activity);
    work.vapourSlopeKgM3K = work.vapourKgM3 * (latent / (waterVapourGasConstantJKgK * kelvin * kelvin) - 1 / kelvin);

    // Diffusion through pores S² D (Papendick & Campbell 1981, read at Cornell's composting pages); D of vapour in
    // air 2.5e-5 m²/s at 25 °C, growing with T^1.8 (from memory), taken as a straight line. Oxygen's is 0.8 of it.
    work.diffusionM2S = work.freeAirFrac * work.freeAirFrac * 2.5e-5 * (1 + 0.006 * (midC - 25));
    // Linear in volumetric water, as Ahn et al. 2009 found for composting materials; the slope lands in their ranges.
    const waterByVolume = layer.waterKgM2 / thickness / 1000;
    work.conductivityWmK = material.dryConductivityWmK + 0.5 * waterByVolume;
    work.vapourConductivityWmK = work.diffusionM2S * latent * work.vapourSlopeKgM3K;
  }
  return all;
}

function emptySheet(): LayerWork {
  const layer: Layer = {
    tempC: 0,
    waterKgM2: 0,
    inertKgM2: 0,
    readyKgM2: 0,
    slowKgM2: 0,
    mesophilesKgM2: 0,
    thermophilesKgM2: 0,
    deadKgM2: 0,
    oxygenFrac: 0,
    bulkKgM3: 0,
    driftKS: 0,
    oxygenDriftS: 0,
  };
  return {
    layer,
    above: undefined,
    below: undefined,
    dryKgM2: 0,
    thicknessM: 0,
    moistureFrac: 0,
    freeAirFrac: 0,
    capacityJM2K: 0,
    midC: 0,
    activity: 0,
    vapourKgM3: 0,
    vapourSlopeKgM3K: 0,
    diffusionM2S: 0,
    conductivityWmK: 0,
    vapourConductivityWmK: 0,
    sideAirMS: 0,
    upAirMS: 0,
    dampShare: 0,
    mesophileRate: 0,
    thermophileRate: 0,
    mesophileWitherPerS: 0,
    mesophileDeathPerS: 0,
    thermophileLossPerS: 0,
    mesophileGrowthKgM2: 0,
    thermophileGrowthKgM2: 0,
    oxygenWantedKgM2S: 0,
    oxygenShare: 0,
    heatInJM2: 0,
    draughtWaterKgM2: 0,
    linkUpWM2K: 0,
    linkDownWM2K: 0,
    linkSideWM2K: 0,
    meanC: 0,
    heldJM2: 0,
  };
}
