/** Rate factors of composting engineering for moisture and air space; heat has cardinal temperatures of its own. */

/**
 * Moisture factor of composting.
 *
 *   f = 1 / { exp[ −17.684 m + 7.0622 ] + 1 }
 *
 * @param moistureFrac Moisture, wet basis, m [-].
 * @returns Factor 0..1; half at m = 0.3994.
 * @remarks It never falls on the wet side: that comes through the air space, so use both.
 * @example haugMoistureFactor(0.4) // => 0.5028
 * @see Haug 1993 (constants from memory). The half point agrees with Cornell's "greatly reduced below 35-40 %".
 */
export function haugMoistureFactor(moistureFrac: number): number {
  return 1 / (Math.exp(-17.684 * moistureFrac + 7.0622) + 1);
}

/**
 * Free-air-space factor of composting.
 *
 *   f = 1 / { exp[ −23.675 a + 3.4945 ] + 1 }
 *
 * @param freeAirSpaceFrac Air-filled share of the volume, a [-].
 * @returns Factor 0..1; half at a = 0.1476.
 * @example haugAirSpaceFactor(0.2) // => 0.7757
 * @see Haug 1993 (constants from memory).
 */
export function haugAirSpaceFactor(freeAirSpaceFrac: number): number {
  return 1 / (Math.exp(-23.675 * freeAirSpaceFrac + 3.4945) + 1);
}

/**
 * Air-filled share of a damp mass.
 *
 *   a = 1 − ρ_dry / ρ_particle − ρ_dry · m / (1 − m) / 1000
 *
 * @param dryDensityKgM3 Dry mass per volume of the heap, ρ_dry [kg m⁻³].
 * @param moistureFrac Moisture, wet basis, m [-], below 1.
 * @param particleDensityKgM3 Density of the solid itself; 1500 is an assumption for bran, 2650 is quartz soil.
 * @returns Free air space [-], not below 0.
 * @remarks No settling when wetted, so it is somewhat high for a wet, trodden heap.
 * @example freeAirSpaceFrac(176, 0.6, 1500) // => 0.619
 */
export function freeAirSpaceFrac(dryDensityKgM3: number, moistureFrac: number, particleDensityKgM3 = 1500): number {
  const waterVolume = (dryDensityKgM3 * moistureFrac) / (1 - moistureFrac) / 1000;
  return Math.max(0, 1 - dryDensityKgM3 / particleDensityKgM3 - waterVolume);
}
