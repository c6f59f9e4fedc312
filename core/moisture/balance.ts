/**
 * core/moisture/balance.ts: how much water a bed holds, from what was laid, given, made and lost.
 *
 * Takes:  the hour's core and air temperatures, the bed, the water before.
 * Gives:  the water after, per kg of dry matter.
 * Never:  trusts pore-air humidity for it: by the Kelvin equation the air of a mass at -1500 kPa is still at 98.9 %RH.
 *
 * Water is counted per dry matter because it then adds up; a reader is shown the wet basis.
 */
import type { Cover, Recipe } from '../../shared/batch.ts';
import { materialFacts } from '../curve/material-facts.ts';
import { saturatedVapourKgM3 } from '../curve/vapour-table.ts';

export function wetBasis(waterKgKg: number): number {
  return waterKgKg / (1 + waterKgKg);
}

export function dryBasis(moistureFrac: number): number {
  return moistureFrac / (1 - moistureFrac);
}

/** Vapour transfer from bed to air under each cover [m s⁻¹]; our own prior, no source found. */
const ventMS: Record<Cover, number> = { open: 1.8e-3, breathable: 0.7e-3, closed: 0.1e-3 };
/** Surface heat transfer under each cover [W m⁻² K⁻¹] and conductivity of a damp bed [W m⁻¹ K⁻¹]; as in core/curve/member.ts. */
const filmWm2K: Record<Cover, number> = { open: 8, breathable: 3.5, closed: 2.5 };
const conductivityWmK = 0.28;

/** Share of the core's excess that the skin shows: 1 / (1 + film · d / 2k). @example skinShare('open', 0.3) // => 0.189 */
export function skinShare(cover: Cover, depthM: number): number {
  return 1 / (1 + (filmWm2K[cover] * depthM) / (2 * conductivityWmK));
}

/**
 * Water lost in one hour.
 *
 *   ΔX = vent · ( ρ_v(T_skin) − rh · ρ_v(T_air) ) · 3600 / ( ρ_dry · d ),   T_skin = T_air + share · (T_core − T_air)
 *
 * @returns Water lost per dry matter in the hour, ΔX [-], not below 0.
 * @remarks No drying front: below about 35 % moisture it loses too fast. Air humidity 70 % unless measured.
 */
export function hourlyLoss(
  coreC: number,
  airC: number,
  airHumidityPct: number,
  recipe: Recipe,
  cover: Cover,
  depthM: number,
): number {
  const skinC = airC + skinShare(cover, depthM) * (coreC - airC);
  const humid = (airHumidityPct / 100) * saturatedVapourKgM3(airC);
  const flux = ventMS[cover] * Math.max(0, saturatedVapourKgM3(skinC) - humid);
  return (flux * 3600) / (materialFacts[recipe.material].dryDensityKgM3 * depthM);
}
