/** The skin of the pile, where sun, sky, wind and evaporation meet. */
import { latentHeatJKg, vapourDensityKgM3, waterVapourGasConstantJKgK, zeroCelsiusK } from '../../shared/water.ts';
import { coverFacts } from './cover.ts';
import type { Pile } from './pile.ts';
import type { AirAtPile } from './shelter.ts';
import type { LayerWork } from './work.ts';

const stefanBoltzmannWM2K4 = 5.670_374e-8;
/** Damp organic matter and covers: emissivity 0.95, sun kept 0.8 (albedo 0.2); common values, from memory. */
const emissivity = 0.95;
const sunKept = 0.8;
/** Volumetric heat of air [J m⁻³ K⁻¹]. */
const airHeatJM3K = 1200;

export interface Skin {
  /** Heat leaves the top layer as  leaveWM2K · (T_top − balanceC)  [W m⁻² K⁻¹, °C]. */
  leaveWM2K: number;
  balanceC: number;
  /** Water leaving [kg m⁻² s⁻¹]; negative as dew. */
  evaporationKgM2S: number;
  /** Resistance of the air film to a gas [s m⁻¹]. */
  filmSM: number;
}

/**
 * Film coefficient of moving air over a rough flat surface: h = 5.7 + 3.8 v [W m⁻² K⁻¹], v below 5 m/s.
 * @see W. H. McAdams, Heat Transmission, 1954 (after Jürges; from memory).
 * @example filmWM2K(1) // => 9.5
 */
function filmWM2K(windMS: number): number {
  return 5.7 + 3.8 * windMS;
}

/**
 * Balance of the skin, which holds no heat itself:
 * conduction from the layer + sun = convection + long waves + latent heat of what evaporates.
 *
 * Vapour leaves in proportion to the difference of vapour density, through film, cover and the crust that has dried;
 * film for vapour from the film for heat by Lewis' rule with a factor of 1.
 */
export function balanceSkin(pile: Pile, top: LayerWork, air: AirAtPile): Skin {
  const cover = coverFacts[pile.cover];
  const film = filmWM2K(air.windMS);
  const filmSM = airHeatJM3K / film;

  // Radiation against sky, straightened about the skin's last temperature. Clear sky after Swinbank 1963 (from memory).
  const airK = air.tempC + zeroCelsiusK;
  const skyK = air.cloudFrac * airK + (1 - air.cloudFrac) * 0.0552 * airK ** 1.5;
  const meanK = (skyK + pile.surfaceC + zeroCelsiusK) / 2;
  const longWave = 4 * emissivity * stefanBoltzmannWM2K4 * meanK * meanK * meanK;

  // Cover and film as one path from skin to air; sun falls on top of it, so a cover lets only part of it through.
  const outside = film + longWave;
  const openTo = 1 / (1 / outside + cover.heatM2KW);
  const radiantC = (film * air.tempC + longWave * (skyK - zeroCelsiusK)) / outside;
  const sunWM2 = air.sunWM2 * sunKept * cover.sunShare * (openTo / outside);

  // Once the upper part of the top layer has dried, vapour must first pass that crust.
  const crustM = (top.thicknessM / 2) * Math.min(0.95, Math.max(0, 1 - top.moistureFrac / 0.7));
  const vapourSM = filmSM + cover.gasSM + crustM / top.diffusionM2S;

  // One Newton step from the last temperature of the skin is enough, for it moves little in a step.
  const inside = (top.conductivityWmK + top.vapourConductivityWmK) / (top.thicknessM / 2);
  const lastC = Math.min(98, Math.max(-38, pile.surfaceC));
  const latent = latentHeatJKg(lastC);
  const lastK = lastC + zeroCelsiusK;
  const skinVapour = vapourDensityKgM3(lastC, 100 * top.activity);
  const skinSlope = skinVapour * (latent / (waterVapourGasConstantJKgK * lastK * lastK) - 1 / lastK);
  const latentWM2 = (latent * (skinVapour - air.vapourKgM3)) / vapourSM;
  const latentWM2K = (latent * skinSlope) / vapourSM;
  const gain = inside * top.midC + openTo * radiantC + sunWM2 - latentWM2 + latentWM2K * lastC;
  const surfaceC = gain / (inside + openTo + latentWM2K);
  pile.surfaceC = surfaceC;

  const leaveWM2K = (inside * (openTo + latentWM2K)) / (inside + openTo + latentWM2K);
  const flowWM2 = inside * (top.midC - surfaceC);
  return {
    leaveWM2K,
    balanceC: top.midC - flowWM2 / leaveWM2K,
    evaporationKgM2S: (latentWM2 + latentWM2K * (surfaceC - lastC)) / latent,
    filmSM,
  };
}
