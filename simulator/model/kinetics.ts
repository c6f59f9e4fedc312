/** How the two groups of microbes live, eat and die. */
import type { CardinalTemps } from './cardinal-rate.ts';

export interface GroupKinetics {
  readonly temps: CardinalTemps;
  /** Growth at the best temperature with everything else plentiful [h⁻¹]. */
  readonly growthPerH: number;
  /** Cells that wither at the best temperature and become food again [h⁻¹]. */
  readonly decayPerH: number;
  /** Time in which heat kills nine of ten at `deathRefC` [h], and the rise that makes it ten times faster [K]. */
  readonly deathRefC: number;
  readonly deathTenthH: number;
  readonly deathZK: number;
}

export interface Kinetics {
  readonly mesophiles: GroupKinetics;
  readonly thermophiles: GroupKinetics;
  /** Cells grown per food taken up [kg kg⁻¹]; the rest is burnt. */
  readonly yieldKgKg: number;
  /** Ready food, over dry mass, at which growth is half [-]. */
  readonly readyHalfFrac: number;
  /** Slow food broken down at the best temperature by a full crowd of cells [h⁻¹]. */
  readonly breakdownPerH: number;
  /** Cells over dry mass at which breakdown runs at half [-]. */
  readonly breakdownHalfFrac: number;
  /** Cells in the starter culture over its wet mass [-]. */
  readonly starterFrac: number;
}

/*
 * Mesophiles: cardinal temperatures of S. cerevisiae PE35M (Salvado et al. 2011), the one set seen in print that
 * ends where growers see this culture end. Thermophiles: a composting mass (Richard & Walker 2006, from memory).
 * Growth 0.2 per hour: the order of moulds and yeasts on bran (from memory). Yield 0.4: usual for aerobic growth
 * (from memory). Heat death: nine of ten gone in two days at 50 °C, 5 h at 55 °C and half an hour at 60 °C: our
 * assumption, set so that the culture is lost where growers say it is lost (common practice, no source).
 */
export const defaultKinetics: Kinetics = {
  mesophiles: {
    temps: { minC: 5.04, optC: 30, maxC: 45.48 },
    growthPerH: 0.2,
    decayPerH: 0.003,
    deathRefC: 50,
    deathTenthH: 48,
    deathZK: 5,
  },
  thermophiles: {
    temps: { minC: 5, optC: 58.6, maxC: 71.6 },
    growthPerH: 0.2,
    decayPerH: 0.006,
    deathRefC: 75,
    deathTenthH: 10,
    deathZK: 6.5,
  },
  yieldKgKg: 0.4,
  readyHalfFrac: 0.01,
  breakdownPerH: 0.0004,
  breakdownHalfFrac: 0.005,
  starterFrac: 0.02,
};

/**
 * Rate at which heat kills cells.
 *
 *   k = ln 10 / D_ref · 10^((T − T_ref) / z)
 *
 * @param tempC Temperature, T [°C].
 * @returns Share killed per second [s⁻¹]; 0 more than 12 K below `deathRefC`, where it no longer matters.
 */
export function heatDeathPerS(tempC: number, group: GroupKinetics): number {
  if (tempC < group.deathRefC - 12) return 0;
  return (Math.LN10 / (group.deathTenthH * 3600)) * Math.exp((Math.LN10 * (tempC - group.deathRefC)) / group.deathZK);
}
