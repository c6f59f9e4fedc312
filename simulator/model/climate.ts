/** Weather that never was, with days, seasons, fronts and rain. */

import { msPerDay } from '../../shared/units.ts';
import type { Air, Weather } from './air.ts';
import { randomAt } from './random.ts';

export interface Climate {
  /** Mean of the year, and how far the warmest month is above it [°C, K]. */
  readonly meanC: number;
  readonly seasonK: number;
  /** How far a clear afternoon is above the mean of its day [K]. */
  readonly dayK: number;
  /** Spread of fronts that last some days [K]. */
  readonly frontK: number;
  /** Relative humidity of a mean day [%RH]. */
  readonly rhPct: number;
  readonly windMS: number;
  /** Share of hours with rain [-], and what falls in such an hour [mm/h]. */
  readonly rainShare: number;
  readonly rainMmH: number;
  readonly latitudeDeg: number;
  /** Local noon is at 12:00 of UTC plus this [h]. */
  readonly utcOffsetH: number;
}

export const mildClimate: Climate = {
  meanC: 15,
  seasonK: 7,
  dayK: 5,
  frontK: 3,
  rhPct: 72,
  windMS: 1.5,
  rainShare: 0.06,
  rainMmH: 1.5,
  latitudeDeg: 42,
  utcOffsetH: 0,
};

const yearMs = 365.2422 * msPerDay;
/** Sun above the air, noon at the top of summer [W m⁻²]. */
const clearSkyWM2 = 1000;

/** Weather of a climate; two seeds give two years, the same seed always the same one. */
export function climateWeather(climate: Climate, seed: number): Weather {
  const front = smoothNoise(seed ^ 0x51ed, 30 * 3_600_000);
  const cloud = smoothNoise(seed ^ 0x2c1b, 9 * 3_600_000);
  const gust = smoothNoise(seed ^ 0x77aa, 3 * 3_600_000);
  const shower = smoothNoise(seed ^ 0x0b3d, 2 * 3_600_000);
  const rainIndex = (showerShare: number, cloudFrac: number) => 0.6 * showerShare + 0.4 * cloudFrac;
  const rainFrom = quantile((localMs) => rainIndex(shower(localMs), cloud(localMs)), 1 - climate.rainShare);
  const sinLat = Math.sin((climate.latitudeDeg * Math.PI) / 180);
  const cosLat = Math.cos((climate.latitudeDeg * Math.PI) / 180);
  return (atMs: number): Air => {
    const localMs = atMs + climate.utcOffsetH * 3_600_000;
    // Warmest about 200 days into the year in the north, half a year later in the south.
    const yearTurn = 2 * Math.PI * (localMs / yearMs - 0.55) + (climate.latitudeDeg < 0 ? Math.PI : 0);
    const dayTurn = 2 * Math.PI * (localMs / msPerDay);
    const cloudFrac = cloud(localMs);
    // Solar elevation from latitude, declination and hour angle.
    const declination = -0.409 * Math.cos(2 * Math.PI * (localMs / yearMs + 0.027));
    const height = sinLat * Math.sin(declination) - cosLat * Math.cos(declination) * Math.cos(dayTurn);
    const sunWM2 = Math.max(0, height) * clearSkyWM2 * (1 - 0.75 * cloudFrac);
    // Coolest and warmest about half past two, at night and in the afternoon.
    const dayK = climate.dayK * (1 - 0.6 * cloudFrac) * -Math.cos(dayTurn - 0.65);
    const tempC =
      climate.meanC + climate.seasonK * Math.cos(yearTurn) + dayK + climate.frontK * (2 * front(localMs) - 1) * 1.5;
    const rain = rainIndex(shower(localMs), cloudFrac);
    const wet = rain > rainFrom ? climate.rainMmH * (0.5 + 10 * (rain - rainFrom)) : 0;
    const rhPct = climate.rhPct - 2.6 * dayK + 12 * (cloudFrac - 0.5) + (wet > 0 ? 15 : 0);
    return {
      tempC,
      rhPct: Math.min(100, Math.max(15, rhPct)),
      windMS: climate.windMS * (0.2 + 1.6 * gust(localMs)),
      sunWM2,
      rainMmH: wet,
      cloudFrac,
    };
  };
}

/** Value that `share` of the hours of some months stay below. */
function quantile(line: (atMs: number) => number, share: number): number {
  const values = Array.from({ length: 2000 }, (_, i) => line(i * 3 * 3_600_000)).sort((a, b) => a - b);
  return values[Math.floor(share * values.length)] ?? Number.POSITIVE_INFINITY;
}

/** A smooth line through even random numbers in 0..1, one every `everyMs`; two octaves. */
function smoothNoise(seed: number, everyMs: number): (atMs: number) => number {
  const coarse = octave(seed, everyMs);
  const fine = octave(seed + 1, everyMs / 3);
  return (atMs) => 0.7 * coarse(atMs) + 0.3 * fine(atMs);
}

/** One octave. The two random numbers about the last instant are kept, for runs ask in order of time. */
function octave(seed: number, everyMs: number): (atMs: number) => number {
  let keptIndex = Number.NaN;
  let before = 0;
  let after = 0;
  return (atMs) => {
    const place = atMs / everyMs;
    const index = Math.floor(place);
    if (index !== keptIndex) {
      keptIndex = index;
      before = randomAt(seed, index);
      after = randomAt(seed, index + 1);
    }
    const x = place - index;
    const s = x * x * (3 - 2 * x);
    return before + (after - before) * s;
  };
}
