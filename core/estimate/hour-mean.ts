/** What one position says in an hour: its mean, how that moved, and whether its pore air is dry. */
import { z } from 'zod';

export const hourMeanSchema = z.object({
  /** Believed temperatures of the running hour. */
  sum: z.number(),
  count: z.number(),
  /** Mean of the last hour that had readings [°C]. */
  meanC: z.number().nullable(),
  /** Change of that mean from the hour before [K]; null when there was none. */
  stepK: z.number().nullable(),
  /** Eased over a day [°C]. */
  dayMeanC: z.number().nullable(),
  /** Hours in a row with the pore air clearly off saturation. */
  dryAirH: z.number(),
});
type HourMean = z.infer<typeof hourMeanSchema>;

/** Hours over which the day's mean is eased [h]; our own choice, no source. */
const dayEasedH = 12;
/** Off saturation [%RH]: 95 is 1 K of dew-point depression at 55 °C (computed); two points below allow for the sensor; our own choice, no source. */
const dryBelowPct = 93;

export const startHourMean = (): HourMean => ({
  sum: 0,
  count: 0,
  meanC: null,
  stepK: null,
  dayMeanC: null,
  dryAirH: 0,
});

export function addToHour(hour: HourMean, tempC: number): void {
  hour.sum += tempC;
  hour.count += 1;
}

/**
 * Closes the running hour.
 * @param betweenC Of a position that is read seldom, what lies between its readings; undefined of any other.
 * @returns Its mean [°C]; null where nothing was measured.
 */
export function closeMean(
  hour: HourMean,
  humidityPct: number | undefined,
  betweenC: number | null | undefined,
): number | null {
  hour.stepK = null;
  const meanC = betweenC === undefined ? (hour.count === 0 ? null : hour.sum / hour.count) : betweenC;
  if (meanC === null) return null;
  hour.sum = 0;
  hour.count = 0;
  hour.stepK = hour.meanC === null ? null : meanC - hour.meanC;
  hour.meanC = meanC;
  hour.dayMeanC = hour.dayMeanC === null ? meanC : hour.dayMeanC + (meanC - hour.dayMeanC) / dayEasedH;
  if (humidityPct !== undefined) hour.dryAirH = humidityPct < dryBelowPct ? hour.dryAirH + 1 : 0;
  return meanC;
}
