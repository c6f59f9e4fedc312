/** How fast a group of microbes grows at a temperature. */

/** Lowest, best and highest temperature of growth [°C]; `optC` must be above the middle of the other two. */
export interface CardinalTemps {
  readonly minC: number;
  readonly optC: number;
  readonly maxC: number;
}

/**
 * Cardinal temperature model with inflection.
 *
 *   γ = (T−Tmax)(T−Tmin)² / { (Topt−Tmin) [ (Topt−Tmin)(T−Topt) − (Topt−Tmax)(Topt+Tmin−2T) ] }   (1)
 *
 * @param tempC Temperature of the mass, T [°C]. Scalar.
 * @param set Cardinal temperatures [°C].
 * @returns Share of the rate at the best temperature [-]; 1 at `optC`, 0 at and outside `minC` and `maxC`.
 *
 * @remarks No range is refused: outside growth it is 0, and NaN gives 0.
 *
 * @example
 * cardinalRate(20, { minC: 5.04, optC: 30, maxC: 45.48 }) // => 0.7000
 *
 * @see [1] L. Rosso, J. R. Lobry, J. P. Flandrois, "An unexpected correlation between cardinal temperatures of
 *   microbial growth highlighted by a new model," J. Theor. Biol., vol. 162, pp. 447-463, 1993.
 */
export function cardinalRate(tempC: number, set: CardinalTemps): number {
  const { minC, optC, maxC } = set;
  if (!(tempC > minC && tempC < maxC)) return 0;
  const rise = tempC - minC;
  const span = optC - minC;
  return ((tempC - maxC) * rise * rise) / (span * (span * (tempC - optC) - (optC - maxC) * (optC + minC - 2 * tempC)));
}
