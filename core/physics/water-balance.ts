/**
 * How much water a bed holds, from what was laid, given, made and lost.
 *
 * Water is counted per dry matter because it then adds up; a reader is shown the wet basis. It never trusts pore-air
 * humidity for it: by the Kelvin equation the air of a mass at -1500 kPa is still at 98.9 %RH.
 */
import type { Cover, Recipe, Shelter } from '../../shared/contracts/domain/batch.ts';
import type { Material } from '../../shared/profiles/material-names.ts';
import type { Bed } from '../profiles/bed.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import { branConductivityWmK, soilConductivityWmK } from './conductivity.ts';
import { surfaceFilmWm2K } from './surface-film.ts';
import { saturatedVapourKgM3 } from './vapour-table.ts';

export function wetBasis(waterKgKg: number): number {
  return waterKgKg / (1 + waterKgKg);
}

export function dryBasis(moistureFrac: number): number {
  return moistureFrac / (1 - moistureFrac);
}

/** Most that a bed holds against gravity, per dry matter [-]. @example heldKgKg('wheat-bran') // => 2.030 */
export function heldKgKg(material: Material): number {
  return dryBasis(materialFacts[material].holdsFrac);
}

function hasRoof({ shelter }: Recipe): boolean {
  return shelter === 'indoors' || shelter === 'roof';
}

/**
 * What holds vapour back between skin and free air, under each cover, of wheat bran 20 cm deep that holds all the water it can [s m⁻¹].
 * Air alone is 70-190 (McAdams' film by Lewis' rule, wind 3 to 0.2 m/s); the rest is the skin, and straw or sheet. Where no shelter was
 * given, an open bed lies in between. These and the shares below are our own priors, fitted to the simulated beds that rules are tried
 * out on (one half of them, and as good on the other); no source found.
 */
const coverSM: Record<Cover, number> = { open: 490, breathable: 1180, closed: 19_000 };
/** An open bed in sun and wind dries faster than one with walls or a roof [s/m]; fitted likewise. */
const openSM: Record<Shelter, number> = { indoors: 600, roof: 550, open: 380 };
/**
 * The skin dries first, the more so the deeper the bed it hides: a bed of the same mean moisture shows the air a drier one. The depth of
 * the beds above [m], and the power of depth over it [-]; fitted likewise.
 */
const sampleDepthM = 0.2;
const depthPower = 0.43;
/** Drier than this share of what it holds a bed gives off no slower [-]: there is next to nothing left to give; our own choice, no source. */
const leastHeldShare = 0.05;
/**
 * As the bed dries, vapour comes from further down: the falling-rate stage of drying. None is seen under a sheet. Power of the
 * share held [-]; fitted likewise.
 */
const drynessPower: Record<Cover, number> = { open: 0.3, breathable: 0.12, closed: 0 };
/** So far from the air to what a probe under the skin says is the skin itself [-]; fitted likewise. */
const skinOfTop: Record<Cover, number> = { open: 0.3, breathable: 0.72, closed: 0.8 };
/** How far the loss may be off, as a share of itself: its spread from bed to bed in the same fit [-], and a guess of our own, no source, where no shelter was given. */
const lossDoubt: Record<Cover, number> = { open: 0.4, breathable: 0.25, closed: 0.2 };
const unshelteredDoubt = 0.5;
/**
 * Share of the core's excess that the skin shows: 1 / (1 + film · d / 2k).
 *
 * @example skinShare('open', 0.3) // => 0.189
 */
export function skinShare(cover: Cover, depthM: number, conductivityWmK = branConductivityWmK): number {
  return 1 / (1 + (surfaceFilmWm2K[cover] * depthM) / (2 * conductivityWmK));
}

/**
 * What holds back the vapour of a bed [s m⁻¹]: cover and skin, more in a deep and in a dry bed.
 *
 *   r = r_cover · m · (d / 0.2 m)^0.43 · (X / X_holds)^−p;   under a sheet r_cover alone
 *
 * @example vapourResistanceSM(1, wheat bran under a roof, { cover: 'open', depthM: 0.3 }) // => 809
 */
export function vapourResistanceSM(waterKgKg: number, recipe: Recipe, { cover, depthM }: Bed): number {
  if (cover === 'closed') return coverSM.closed;
  const base = cover === 'open' && recipe.shelter !== undefined ? openSM[recipe.shelter] : coverSM[cover];
  const heldShare = Math.max(leastHeldShare, waterKgKg / heldKgKg(recipe.material));
  const skin = (depthM / sampleDepthM) ** depthPower * heldShare ** -drynessPower[cover];
  return base * materialFacts[recipe.material].vapourShare * skin;
}

/** Standard deviation of the loss as a share of itself [-]. */
export function lossDoubtOf(recipe: Recipe, cover: Cover): number {
  return cover === 'open' && !hasRoof(recipe) ? unshelteredDoubt : lossDoubt[cover];
}

/** Temperatures of the hour [°C]; `topC` where a probe under the skin may be believed, else null. */
export interface HourHeat {
  readonly coreC: number;
  readonly topC: number | null;
  readonly airC: number;
}

/**
 * Water lost in one hour.
 *
 *   ΔX = ( ρ_v(T_skin) − rh · ρ_v(T_air) ) / r · 3600 / ( ρ_dry · d )
 *   T_skin = T_air + b · (T_top − T_air), or T_air + share · (T_core − T_air) where no probe lies under the skin
 *
 * @returns Water lost per dry matter in the hour, ΔX [-], not below 0.
 */
export function hourlyLoss(
  { coreC, topC, airC }: HourHeat,
  airHumidityPct: number,
  waterKgKg: number,
  recipe: Recipe,
  bed: Bed,
): number {
  const { cover, depthM } = bed;
  const conductivityWmK = materialFacts[recipe.material].isSoil ? soilConductivityWmK : branConductivityWmK;
  const warmthK =
    topC === null ? skinShare(cover, depthM, conductivityWmK) * (coreC - airC) : skinOfTop[cover] * (topC - airC);
  const humid = (airHumidityPct / 100) * saturatedVapourKgM3(airC);
  const flux = Math.max(0, saturatedVapourKgM3(airC + warmthK) - humid) / vapourResistanceSM(waterKgKg, recipe, bed);
  return (flux * 3600) / (materialFacts[recipe.material].dryDensityKgM3 * depthM);
}

/** A rain that nobody read on a gauge [mm]; common practice, no source. */
const unreadRainMm = 5;
/** Share of the rain that gets past each cover [-]: straw and mats shed about half; common practice, no source. */
const rainShare: Record<Cover, number> = { open: 1, breathable: 0.5, closed: 0 };

/** Rain that gets into a bed [kg m⁻²]; none under a roof, whoever wrote it down for all beds of a site. */
export function rainThrough(rainMm: number | undefined, recipe: Recipe, cover: Cover): number {
  return hasRoof(recipe) ? 0 : rainShare[cover] * (rainMm ?? unreadRainMm);
}

/**
 * Rain taken in, per dry matter [-]: 1 mm is 1 kg m⁻².
 *
 *   ΔX = share · rain / ( ρ_dry · d ),   share 1 open, 0.5 through straw, 0 under a sheet or a roof
 *
 * @example rainTaken(10, wheat bran, { cover: 'open', depthM: 0.3 }) // => 0.180
 */
export function rainTaken(rainMm: number | undefined, recipe: Recipe, { cover, depthM }: Bed): number {
  return rainThrough(rainMm, recipe, cover) / (materialFacts[recipe.material].dryDensityKgM3 * depthM);
}
