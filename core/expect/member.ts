/**
 * One member of the ensemble: a draw of everything about a heap that nobody measured.
 *
 * Every prior stands here with its reason. Where none is given: our own, no source found.
 */
import type { Cover, Recipe } from '../../shared/contracts/domain/batch.ts';
import { type CardinalTemperatures, cardinalSet } from '../physics/cardinal-temperature.ts';
import { branConductivityWmK, soilConductivityWmK } from '../physics/conductivity.ts';
import { groundFilmWm2K, surfaceFilmWm2K } from '../physics/surface-film.ts';
import { materialFacts } from '../profiles/material-facts.ts';
import type { Random } from './random.ts';

export interface Member {
  /** Warmer than the air when laid, by [K]. */
  readonly startAboveAirK: number;
  /** The pile's own air against the measured air [K]. */
  readonly airOffsetK: number;
  readonly airHumidityPct: number;
  readonly dryDensityKgM3: number;
  readonly particleDensityKgM3: number;
  readonly depthM: number;
  readonly moistureFrac: number;
  readonly conductivityWmK: number;
  readonly groundWm2K: number;
  /** Surface heat transfer under each cover [W m⁻² K⁻¹]. */
  readonly filmWm2K: Record<Cover, number>;
  /** Vapour transfer under each cover [m s⁻¹]. */
  readonly ventMS: Record<Cover, number>;
  /** Dry matter that can burn at once, and that a turn sets free, as shares of all dry matter [-]. */
  readonly burningFrac: number;
  readonly lockedFrac: number;
  /** Fibre and protein that are broken down slowly into food: a share of all dry matter [-], per hour at the best [h⁻¹]. */
  readonly slowFrac: number;
  readonly breakdownPerH: number;
  /** Dry matter burnt per hour at the best temperature by a full-grown group [h⁻¹]. */
  readonly mesoBurnPerH: number;
  readonly thermoBurnPerH: number;
  readonly mesoGrowthPerH: number;
  readonly thermoGrowthPerH: number;
  /** Size of each group when laid, against full-grown [-]. */
  readonly mesoStart: number;
  readonly thermoStart: number;
  readonly mesoSet: CardinalTemperatures;
  readonly thermoSet: CardinalTemperatures;
  readonly lagH: number;
  /** Share of the excess over the air that a turn lets out. */
  readonly turnLossFrac: number;
}

/** Usual culture in the mix, wet basis [-]: 1 part liquid in 500 to 1000 of water would be far less, a handful per bed more; our own, no source. */
export const usualDoseFrac = 0.01;

export function drawMember(recipe: Recipe, random: Random): Member {
  const facts = materialFacts[recipe.material];
  const soil = facts.isSoil;
  const doseKnown = recipe.doseFrac !== undefined;
  // Twice the culture is less than twice the start: much of it does not take.
  const dose = Math.max(1e-4, recipe.doseFrac ?? usualDoseFrac) / usualDoseFrac;
  const moistureFrac =
    recipe.moistureFrac === undefined
      ? random.normal(facts.moistureFrac, facts.moistureSd)
      : random.normal(recipe.moistureFrac, 0.02); // a grower's figure is good to about two points
  const film = random.logNormal(1, 0.25);
  const vent = random.logNormal(1, 0.35);
  return {
    startAboveAirK: random.normal(3, 3),
    airOffsetK: random.normal(0, 1),
    airHumidityPct: random.between(50, 90),
    dryDensityKgM3: random.logNormal(facts.dryDensityKgM3, facts.dryDensityLogSd),
    particleDensityKgM3: facts.particleDensityKgM3,
    depthM: recipe.depthM * random.logNormal(1, 0.08),
    moistureFrac: Math.min(0.85, Math.max(0.1, moistureFrac)),
    conductivityWmK: random.logNormal(soil ? soilConductivityWmK : branConductivityWmK, 0.3),
    groundWm2K: random.logNormal(groundFilmWm2K, 0.35),
    filmWm2K: {
      open: surfaceFilmWm2K.open * film,
      breathable: surfaceFilmWm2K.breathable * film,
      closed: surfaceFilmWm2K.closed * film,
    },
    ventMS: { open: 1.8e-3 * vent, breathable: 0.7e-3 * vent, closed: 0.1e-3 * vent },
    burningFrac: random.logNormal(facts.burningFrac, facts.burningLogSd),
    lockedFrac: random.logNormal(facts.burningFrac * 0.25, 0.5),
    slowFrac: soil ? random.between(0.03, 0.2) : random.between(0.2, 0.5),
    breakdownPerH: random.logNormal(0.00018, 0.7),
    mesoBurnPerH: random.logNormal(soil ? 0.0005 : 0.0012, 0.3),
    thermoBurnPerH: random.logNormal(soil ? 0.0003 : 0.0008, 0.45),
    mesoGrowthPerH: random.logNormal(0.34, 0.2),
    thermoGrowthPerH: random.logNormal(0.13, 0.35),
    mesoStart: Math.min(0.5, (soil ? 0.2 : 0.08) * dose ** 0.7 * random.logNormal(1, doseKnown ? 0.6 : 0.9)),
    thermoStart: Math.min(0.2, (soil ? 0.01 : 0.001) * random.logNormal(1, 1)),
    // From yeast (30, 45.5) to the bacteria Rosso fitted (41, 47.5); hot ones around Richard and Walker 2006 (from memory).
    mesoSet: cardinalSet(random.between(4, 11), random.between(30, 41), random.between(45, 48.5)),
    thermoSet: cardinalSet(random.between(5, 25), random.between(53, 60), random.between(67, 73)),
    lagH: random.logNormal(soil ? 2 : 5, 0.5),
    turnLossFrac: random.between(0.25, 0.6),
  };
}
