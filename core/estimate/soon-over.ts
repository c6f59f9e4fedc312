/** Whether the core is on its way over the limit. */
import { msPerHour } from '../../shared/units.ts';
import type { Forecast } from '../forecast/forecast.ts';
import { isSeldom } from './between.ts';
import { coreAtHour, type Hours } from './hours.ts';
import type { Track } from './track.ts';

/**
 * Share of the likest members that pass the limit, from which on it is likely, and below which it no longer is [-]; our own choice,
 * no source.
 */
const likelyFrom = 0.8;
const unlikelyBelow = 0.25;
/**
 * Without a forecast: on its way when at this pace it passes within so many hours [h], and no further off than this [K]; our own
 * choice, no source.
 */
const paceH = 6;
const nearK = 8;
/**
 * Further below the limit than this a forecast is not yet believed: most heaps level off before [K]. From the development piles of
 * the detection bench.
 */
export const believedK = 4.5;

/**
 * Of a core that is read seldom and as near as that, it is said from this likelihood on that it passes within three of its readings [-]:
 * whoever waits for the next one, and it is lost, hears of it when it has passed. From the development piles of the detection bench.
 */
const unseenFrom = 0.6;
const withinReadings = 3;

/** It must still be rising by this much in the hour [K]; our own choice, no source. */
const risingK = 0.3;

/**
 * Whether the core is likely to pass its limit before three more readings have come, of one that is read seldom.
 *
 * @param core What is read of the core; null where nothing is.
 */
export function passesUnseen(core: Track | null, forecast: Forecast | null, limitC: number): boolean {
  if (core === null || forecast === null || forecast.overInH === null || !isSeldom(core)) return false;
  if (limitC - core.value > believedK) return false;
  const untilH = (core.atMs + withinReadings * core.intervalMs - forecast.atMs) / msPerHour;
  return forecast.overLikelihood >= unseenFrom && forecast.overInH <= untilH;
}

export function soonOver(
  was: boolean,
  hours: Readonly<Hours>,
  forecast: Forecast | null,
  coreC: number,
  limitC: number,
): boolean {
  if (coreC > limitC) return true;
  const rise3K = coreC - (coreAtHour(hours, hours.done - 4) ?? coreC);
  const atThisPaceH = rise3K > 0 ? (limitC - coreC) / (rise3K / 3) : Number.POSITIVE_INFINITY;
  if (forecast === null) return limitC - coreC < nearK && atThisPaceH <= (was ? 2 * paceH : paceH);
  const lastHourK = coreC - (coreAtHour(hours, hours.done - 2) ?? coreC);
  if (!was && (limitC - coreC > believedK || lastHourK < risingK)) return false;
  if (lastHourK < 0) return false;
  return forecast.overShare >= (was ? unlikelyBelow : likelyFrom);
}
