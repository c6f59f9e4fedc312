/**
 * How fast a group of microbes works at a temperature, against its best. It never knows which group it is; the sets in
 * use are at the foot.
 */

/** The temperatures below and above which a group does nothing, and the one at which it does best [°C]. */
export interface CardinalTemperatures {
  readonly minC: number;
  readonly optC: number;
  readonly maxC: number;
}

/**
 * Cardinal temperature model with inflection.
 *
 *   γ = (T − Tmax)(T − Tmin)² / { (Topt − Tmin) [ (Topt − Tmin)(T − Topt) − (Topt − Tmax)(Topt + Tmin − 2T) ] }
 *
 * @param tempC Temperature, T [°C]. Scalar.
 * @param set Cardinal temperatures [°C]; needs Topt > (Tmin + Tmax) / 2.
 * @returns Factor γ [-]: 0 at and outside Tmin and Tmax, 1 at Topt.
 *
 * @remarks The condition on Topt is the model's own; a set that breaks it is refused by `cardinalSet`.
 *
 * @example
 * cardinalTemperatureFactor(20, { minC: 5.04, optC: 30, maxC: 45.48 }) // => 0.7000
 *
 * @see L. Rosso, J. R. Lobry, J. P. Flandrois, "An unexpected correlation between cardinal temperatures of microbial
 *   growth highlighted by a new model," J. Theor. Biol., vol. 162, pp. 447-463, 1993 (equation second-hand).
 *   Worked set: S. cerevisiae PE35M, Salvado et al. 2011 (second-hand).
 */
export function cardinalTemperatureFactor(tempC: number, set: CardinalTemperatures): number {
  const { minC, optC, maxC } = set;
  if (!(tempC > minC && tempC < maxC)) return 0;
  const aboveMin = tempC - minC;
  const span = optC - minC;
  const below = span * (span * (tempC - optC) - (optC - maxC) * (optC + minC - 2 * tempC));
  return ((tempC - maxC) * aboveMin * aboveMin) / below;
}

/** @throws {RangeError} If the set breaks Tmin < Topt < Tmax or Topt > (Tmin + Tmax) / 2, where the factor has a pole. */
export function cardinalSet(minC: number, optC: number, maxC: number): CardinalTemperatures {
  if (!(minC < optC && optC < maxC && optC > (minC + maxC) / 2)) {
    throw new RangeError(
      `Cannot use cardinal temperatures as they must rise and optC must lie above the middle: current values are ${minC}, ${optC}, ${maxC}`,
    );
  }
  return { minC, optC, maxC };
}

/**
 * Microbes of the first hump. Between yeast (30 °C) and the gut bacteria fitted by Rosso (41.3 °C), as a bran culture
 * holds yeasts, moulds and bacteria together. No source for the mixture: common practice, no source.
 */
export const mesophilicSet = cardinalSet(5, 37, 48);

/** Microbes of the second hump: the composting mass of Richard and Walker 2006 (values from memory). */
export const thermophilicSet = cardinalSet(20, 55, 71.6);

/** The grower's culture at work, for progress: best where growers hold it (35 to 45 °C), lost at 60 °C (common practice). */
export const cultureSet = cardinalSet(12, 40, 60);
