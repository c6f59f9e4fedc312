/**
 * How moisture, air space and oxygen slow the microbes down.
 *
 * The constants of the first two are remembered from Haug 1993 and were not found in print; the half points agree with
 * the bands that Cornell's composting pages publish.
 */

/**
 * Moisture factor.
 *
 *   f = 1 / { exp[ −17.684 m + 7.0622 ] + 1 }
 *
 * @param moistureFrac Water over wet mass, m [-], 0..1.
 * @returns Share of the full rate [-]. Half at 0.3994.
 * @remarks It does not fall on the wet side: too much water acts through the free air space.
 * @example
 * moistureFactor(0.4) // => 0.5028
 * @see R. T. Haug, The Practical Handbook of Compost Engineering, 1993 (from memory).
 */
export function moistureFactor(moistureFrac: number): number {
  return 1 / (Math.exp(-17.684 * moistureFrac + 7.0622) + 1);
}

/**
 * Free-air-space factor.
 *
 *   f = 1 / { exp[ −23.675 a + 3.4945 ] + 1 }
 *
 * @param freeAirFrac Air-filled share of the volume, a [-], 0..1.
 * @returns Share of the full rate [-]. Half at 0.1476.
 * @example
 * freeAirFactor(0.3) // => 0.9736
 * @see R. T. Haug, The Practical Handbook of Compost Engineering, 1993 (from memory).
 */
export function freeAirFactor(freeAirFrac: number): number {
  return 1 / (Math.exp(-23.675 * freeAirFrac + 3.4945) + 1);
}

/** Oxygen at which the rate is half, as a share of the pore air by volume [-]: 2 % (Haug 1993, from memory). */
const oxygenHalfFrac = 0.02;

/**
 * Oxygen factor: f = O / (0.02 + O).
 *
 * @param oxygenFrac Oxygen in the pore air by volume, O [-], 0..0.2095.
 * @example
 * oxygenFactor(0.05) // => 0.7143
 */
export function oxygenFactor(oxygenFrac: number): number {
  return oxygenFrac / (oxygenHalfFrac + oxygenFrac);
}

/**
 * Water activity of damp bran: the relative humidity its pore air settles at.
 *
 *   a_w = exp[ −529.43 / (t + 50.998) · exp(−17.609 M) ]
 *
 * @param tempC Temperature, t [°C], above -50.
 * @param dryBasisFrac Water over dry mass, M [-].
 * @returns Relative humidity of the pore air as a fraction [-], 0..1.
 * @remarks The modified Chung-Pfost isotherm of hard wheat: no isotherm of bran was found. Valid to about 0.95;
 * above that it only says "nearly saturated", which is what a wet mass is.
 * @example
 * waterActivity(25, 0.1954) // => 0.800
 * @see ANSI/ASABE D245.5 (constants from memory).
 */
export function waterActivity(tempC: number, dryBasisFrac: number): number {
  return Math.exp((-529.43 / (tempC + 50.998)) * Math.exp(-17.609 * dryBasisFrac));
}
