/** Conversions between the units people and probes use. */

/** °F to °C: (F - 32) / 1.8, exact. @example fahrenheitToCelsius(131) // => 55 */
export function fahrenheitToCelsius(tempF: number): number {
  return (tempF - 32) / 1.8;
}

/** °C to °F: C * 1.8 + 32, exact. @example celsiusToFahrenheit(50) // => 122 */
export function celsiusToFahrenheit(tempC: number): number {
  return tempC * 1.8 + 32;
}

/** A difference of temperatures, K to °F steps: 1.8 per kelvin. */
export function kelvinDifferenceToFahrenheit(deltaK: number): number {
  return deltaK * 1.8;
}

/** dBW to dBm: 1 W = 1000 mW, so +30, exact. */
export function dbwToDbm(dbw: number): number {
  return dbw + 30;
}

/** One pound [kg]: exact, international yard and pound agreement of 1959. */
export const kgPerPound = 0.45359237;
/** One US gallon [L]: 231 cubic inches of 2.54 cm, exact. */
export const litresPerUsGallon = 3.785411784;
/** One inch and one foot [m]: exact, 1959. */
export const metresPerInch = 0.0254;
export const metresPerFoot = 0.3048;
/** US kitchen measures [mL]: 128 fluid ounces, 256 tablespoons, 768 teaspoons to the gallon, exact. */
export const mlPerUsFluidOunce = 29.5735295625;
export const mlPerUsTablespoon = 14.78676478125;
export const mlPerUsTeaspoon = 4.92892159375;

export const msPerMinute = 60_000;
export const msPerHour = 3_600_000;
export const msPerDay = 86_400_000;
