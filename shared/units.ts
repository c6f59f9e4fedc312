/**
 * shared/units.ts: conversions between the units people and probes use.
 *
 * Takes:  a number in the unit named first.
 * Gives:  a number in the unit named second. All are exact by definition of the units.
 */

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

export const msPerMinute = 60_000;
export const msPerHour = 3_600_000;
export const msPerDay = 86_400_000;
