/**
 * Properties of water and damp air that every room computes in the same way. It never guesses: a number outside the
 * stated range is refused, NaN too.
 */

/** Specific gas constant of water vapour [J kg⁻¹ K⁻¹]: 8.314462618 / 0.018015268 (CODATA, IAPWS molar mass). */
export const waterVapourGasConstantJKgK = 461.523;

/** 0 °C on the kelvin scale, exact by definition [K]. */
export const zeroCelsiusK = 273.15;

/**
 * Saturation vapour pressure of water over a plane liquid surface.
 *
 *   e_s = 611.21 · exp( (18.678 − t / 234.5) · t / (257.14 + t) )                    (1)
 *
 * @param tempC Temperature of the water surface, t [°C]. Scalar.
 * @returns Saturation vapour pressure, e_s [Pa].
 * @throws {RangeError} If `tempC` is outside -40..100 °C.
 *
 * @remarks
 * Within 0.05 % of IAPWS-IF97 over 0..80 °C (computed). Below 0 °C it is the pressure over supercooled
 * water, not over ice, which is what humidity sensors refer to.
 *
 * @example
 * saturationVapourPressurePa(60) // => 19945.1
 *
 * @see [1] A. L. Buck, "New equations for computing vapor pressure and enhancement factor," J. Appl. Meteor.,
 *   vol. 20, pp. 1527-1532, 1981, with the coefficients of Buck Research, 1996 (coefficients from memory; the
 *   agreement with IF97 supports them).
 */
export function saturationVapourPressurePa(tempC: number): number {
  refuseOutside('saturation vapour pressure', 'tempC', tempC, -40, 100);
  return 611.21 * Math.exp((18.678 - tempC / 234.5) * (tempC / (257.14 + tempC)));
}

/**
 * Latent heat of vaporisation of water.
 *
 *   h_fg = 2 501 000 − 2361 · t                                                     (1)
 *
 * @param tempC Temperature at which the water evaporates, t [°C]. Scalar.
 * @returns Latent heat, h_fg [J kg⁻¹].
 * @throws {RangeError} If `tempC` is outside -40..100 °C.
 *
 * @remarks Within 0.2 % of the steam tables over 0..80 °C.
 *
 * @example
 * latentHeatJKg(40) // => 2406560
 *
 * @see [1] R. G. Allen et al., "Crop evapotranspiration," FAO Irrigation and Drainage Paper 56, 1998, annex 3
 *   (equation from memory); compared with the saturated-steam table at people.ohio.edu/trembly.
 */
export function latentHeatJKg(tempC: number): number {
  refuseOutside('latent heat', 'tempC', tempC, -40, 100);
  return 2_501_000 - 2361 * tempC;
}

/**
 * Mass of water vapour in a cubic metre of damp air, as an ideal gas.
 *
 *   rho_v = (rh / 100) · e_s(t) / ( R_v · (t + 273.15) )
 *
 * @param tempC Air temperature, t [°C]. Scalar.
 * @param rhPct Relative humidity over liquid water, rh [%RH], 0..119.
 * @returns Vapour density, rho_v [kg m⁻³].
 * @throws {RangeError} If `tempC` is outside -40..100 °C or `rhPct` outside 0..119.
 *
 * @remarks The ideal gas is about 0.2 % low at 25 °C and 0.9 % low at 80 °C against the steam tables' saturated
 * vapour (43.36 and 3.407 m³ kg⁻¹, from memory).
 *
 * @example
 * vapourDensityKgM3(40, 100) // => 0.05108
 */
export function vapourDensityKgM3(tempC: number, rhPct: number): number {
  refuseHumidity('vapour density', rhPct);
  const vapourPressurePa = (rhPct / 100) * saturationVapourPressurePa(tempC);
  return vapourPressurePa / (waterVapourGasConstantJKgK * (tempC + zeroCelsiusK));
}

function refuseOutside(what: string, name: string, value: number, min: number, max: number): void {
  // Written so that NaN is refused too.
  if (!(value >= min && value <= max)) {
    throw new RangeError(
      `Cannot compute ${what} as ${name} must be within ${min}..${max} °C: current value is ${value}`,
    );
  }
}

function refuseHumidity(what: string, rhPct: number): void {
  if (!(rhPct >= 0 && rhPct <= 119)) {
    throw new RangeError(`Cannot compute ${what} as rhPct must be within 0..119 %RH: current value is ${rhPct}`);
  }
}
