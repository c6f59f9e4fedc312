/**
 * How long a probe lay at or above which temperatures, reading by reading. It never credits more than was seen: a
 * stretch counts only when both readings at its ends lie in the band.
 */
import { msPerHour } from '../../shared/units.ts';

export interface HeatBand {
  readonly fromC: number;
  /** Included; infinite where the band has no top. */
  readonly toC: number;
  /** `fromC` itself does not count. */
  readonly above?: boolean;
}

interface BandTime {
  readonly band: HeatBand;
  totalMs: number;
  runMs: number;
  longestMs: number;
  firstAtMs: number | null;
  lastAtMs: number | null;
}

export interface HeatLog {
  readonly bands: readonly BandTime[];
  measuredMs: number;
  highestC: number | null;
  highestAtMs: number | null;
  lastC: number | null;
  lastAtMs: number;
}

/** Readings further apart than this say nothing about the time between them; an hourly logger may be late by a quarter [ms]; our own choice, no source. */
export const longestGapMs = 1.25 * msPerHour;

export function startHeatLog(bands: readonly HeatBand[]): HeatLog {
  return {
    bands: bands.map((band) => ({ band, totalMs: 0, runMs: 0, longestMs: 0, firstAtMs: null, lastAtMs: null })),
    measuredMs: 0,
    highestC: null,
    highestAtMs: null,
    lastC: null,
    lastAtMs: 0,
  };
}

/**
 * Takes in one reading; one that is not newer than the last is left out.
 *
 * @param within Lowest and highest of the readings it stands for: both must lie in a band for any of them to count there.
 */
export function followHeat(
  log: HeatLog,
  atMs: number,
  tempC: number,
  within: { readonly min: number; readonly max: number } = { min: tempC, max: tempC },
): void {
  const gapMs = atMs - log.lastAtMs;
  if (log.lastC !== null && gapMs <= 0) return;
  const spanMs = log.lastC !== null && gapMs <= longestGapMs ? gapMs : 0;
  log.measuredMs += spanMs;
  for (const time of log.bands) {
    if (!(isWithin(within.min, time.band) && isWithin(within.max, time.band))) {
      time.runMs = 0;
      continue;
    }
    const both = spanMs > 0 && time.lastAtMs === log.lastAtMs;
    time.runMs = both ? time.runMs + spanMs : 0;
    if (both) time.totalMs += spanMs;
    time.longestMs = Math.max(time.longestMs, time.runMs);
    time.firstAtMs ??= atMs;
    time.lastAtMs = atMs;
  }
  if (log.highestC === null || within.max > log.highestC) {
    log.highestC = within.max;
    log.highestAtMs = atMs;
  }
  log.lastC = tempC;
  log.lastAtMs = atMs;
}

function isWithin(tempC: number, { fromC, toC, above }: HeatBand): boolean {
  return (above ? tempC > fromC : tempC >= fromC) && tempC <= toC;
}
