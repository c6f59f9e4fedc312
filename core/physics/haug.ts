/**
 * Rate factors of composting engineering for heat, moisture, air space and oxygen. It never stands alone for bran: the
 * temperature factor peaks at 71.6 °C, far above where growers hold a culture.
 */

/**
 * Temperature factor of composting, against 20 °C.
 *
 *   k_T / k_20 = 1.066^(T − 20) − 1.21^(T − 60), not below 0
 *
 * @param tempC Temperature of the mass, T [°C].
 * @returns k_T / k_20 [-].
 * @remarks Peak 17.930 at 71.552 °C, zero at 80.177 °C (both analytic). 0.9995, not 1, at 20 °C: the form is so.
 * @example haugTemperatureFactor(40) // => 3.5683
 * @see R. T. Haug, The Practical Handbook of Compost Engineering, 1993, after Andrews and Kambhu 1973 (second-hand).
 */
export function haugTemperatureFactor(tempC: number): number {
  return Math.max(0, 1.066 ** (tempC - 20) - 1.21 ** (tempC - 60));
}

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
 * Oxygen factor, of the Monod form with half saturation at 2 % by volume.
 *
 *   f = O2 / (2 + O2)
 *
 * @param oxygenPct Oxygen in the pore air [% by volume], at least 0.
 * @example haugOxygenFactor(5) // => 0.7143
 * @see Haug 1993 (constant from memory).
 */
export function haugOxygenFactor(oxygenPct: number): number {
  return oxygenPct / (2 + oxygenPct);
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
