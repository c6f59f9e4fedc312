/** Turns and waterings seen in the curves. It never writes it down: the grower says whether it was so. */
import type { Material } from '../../shared/profiles/material-names.ts';
import { dryHeatJKgK, waterHeatJKgK } from '../expect/lumped-model.ts';
import { branConductivityWmK, soilConductivityWmK } from '../physics/conductivity.ts';
import { groundFilmWm2K, surfaceFilmWm2K } from '../physics/surface-film.ts';
import type { Bed } from '../profiles/bed.ts';
import { materialFacts } from '../profiles/material-facts.ts';

export interface HourStep {
  /** Change of the hourly mean [K]; null where it was not measured. */
  readonly coreK: number | null;
  readonly topK: number | null;
  readonly baseK: number | null;
  readonly airK: number;
  /** Core above the air before the hour [K]. */
  readonly excessK: number;
  /** Rise of a volumetric moisture probe at the core [points of %]; null where there is none. */
  readonly moisturePct: number | null;
}

export const interventions = ['turned', 'watered'] as const;
export type Intervention = (typeof interventions)[number];

/** A core falls this much in an hour only when somebody opens the bed [K], and by this share of its warmth [-]; our own choice, no source. */
const openedK = 4;
const openedShare = 0.2;
/** Water of a bed as it is usually laid, per dry matter [-]; common practice, no source. */
const usualWaterKgKg = 1.5;

/**
 * What a bed loses of its warmth by itself in so long, at most: 1 − exp(−t / τ), τ = C ρ d / U, making none [-].
 *
 * @example ownFallShare(3, { depthM: 0.3, cover: 'breathable' }, 'wheat-bran') // => 0.053
 */
export function ownFallShare(hours: number, { depthM, cover }: Bed, material: Material): number {
  const facts = materialFacts[material];
  const halfBed = depthM / 2 / (facts.isSoil ? soilConductivityWmK : branConductivityWmK);
  const lossWm2K = 1 / (1 / surfaceFilmWm2K[cover] + halfBed) + 1 / (1 / groundFilmWm2K + halfBed);
  const heatJm2K = facts.dryDensityKgM3 * depthM * (dryHeatJKgK + waterHeatJKgK * usualWaterKgKg);
  return 1 - Math.exp((-hours * 3600 * lossWm2K) / heatJm2K);
}

/**
 * Cold water takes the skin down by this much beyond the air while the core hardly moves [K], and a moisture probe up by this many
 * points [%]; our own choice, no source.
 */
const wettedK = 5;
const wettedPct = 5;

/** How far base or core fall within the hour where it was water [K]; our own choice, no source. */
const followsK = { base: 0.8, core: 1.5 } as const;

/**
 * Whether a bed that is read seldom was opened between two readings.
 *
 * @param fellK How far the core fell.
 * @param excessK Core above the air at the first of them [K].
 * @param ownShare What of it a bed may lose by itself in the time [-].
 */
export function wasOpened(fellK: number, excessK: number, ownShare: number): boolean {
  return fellK >= openedK && fellK >= (openedShare + ownShare) * excessK;
}

/** @returns What was probably done in the hour, or undefined. Rain on an open bed looks like a watering. */
export function detectIntervention(step: HourStep): Intervention | undefined {
  const wetter = step.moisturePct !== null && step.moisturePct >= wettedPct;
  const coreFellK = step.coreK === null ? 0 : -step.coreK + Math.min(0, step.airK);
  if (coreFellK >= openedK && coreFellK >= openedShare * step.excessK) return wetter ? 'watered' : 'turned';
  if (wetter) return 'watered';
  const topFellK = step.topK === null ? 0 : -step.topK + Math.min(0, 2 * step.airK);
  // The sun going takes a skin down too; a base or core that follows within the hour tells water from shade.
  const below = step.baseK !== null && step.baseK <= -followsK.base;
  return topFellK >= wettedK && (below || coreFellK >= followsK.core) ? 'watered' : undefined;
}
