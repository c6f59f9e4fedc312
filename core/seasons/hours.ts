/**
 * Time spent above or within temperatures, heat above the air, the peak. It never counts time across a gap; see
 * course.ts for how long one may be.
 */
import { msPerHour } from '../../shared/units.ts';
import { type Columns, gapLimitMs } from './course.ts';

/**
 * Hours above a temperature, straight between neighbouring values.
 *
 * @example hoursAbove({ atMs: [0, 3_600_000], meanC: [45, 55], maxC: [45, 55] }, 50) // => 0.5
 */
export function hoursAbove(columns: Columns, tempC: number): number {
  return hoursFrom(columns, tempC, false);
}

function hoursFrom({ atMs, meanC }: Columns, tempC: number, countLevel: boolean): number {
  const limitMs = gapLimitMs(atMs);
  let sumMs = 0;
  for (let i = 1; i < atMs.length; i += 1) {
    const stepMs = (atMs[i] as number) - (atMs[i - 1] as number);
    if (stepMs > limitMs) continue;
    sumMs += stepMs * shareAbove(meanC[i - 1] as number, meanC[i] as number, tempC, countLevel);
  }
  return sumMs / msPerHour;
}

/** Hours from `minC` to `maxC`, both included. */
export function hoursWithin(columns: Columns, minC: number, maxC: number): number {
  return hoursFrom(columns, minC, true) - hoursFrom(columns, maxC, false);
}

/** Of a straight line from one value to the next, the share above a temperature; a level line at it counts when asked to. */
function shareAbove(from: number, to: number, tempC: number, countLevel: boolean): number {
  if (from === to) return from > tempC || (countLevel && from === tempC) ? 1 : 0;
  const share = (Math.max(from, to) - tempC) / Math.abs(to - from);
  return Math.min(1, Math.max(0, share));
}

/** Hours that were measured at all. */
export function measuredHours(columns: Columns): number {
  return hoursAbove(columns, Number.NEGATIVE_INFINITY);
}

/** When the first value at or above a temperature was measured, as age [h]; null when none was. */
export function hoursTo({ atMs, meanC }: Columns, startedAtMs: number, tempC: number): number | null {
  for (let i = 0; i < atMs.length; i += 1) {
    if ((meanC[i] as number) >= tempC) return ((atMs[i] as number) - startedAtMs) / msPerHour;
  }
  return null;
}

/** The highest single reading, and its age; of equal ones the first. */
export function peakOf({ atMs, maxC }: Columns, startedAtMs: number): { peakC: number; peakAfterH: number } | null {
  let best = -1;
  for (let i = 0; i < maxC.length; i += 1) {
    if (best < 0 || (maxC[i] as number) > (maxC[best] as number)) best = i;
  }
  if (best < 0) return null;
  return { peakC: maxC[best] as number, peakAfterH: ((atMs[best] as number) - startedAtMs) / msPerHour };
}

/**
 * Heat above the air: ∫ max(0, T_core − T_air) dt, by the trapezoid rule over whole hours [K h].
 *
 * @param coreC Core per hour of age. @param airC Air per hour of age.
 * @returns Null when no two neighbouring hours have both.
 * @example degreeHoursAboveAir([30, 40, 40], [20, 20, 20]) // => 35
 */
export function degreeHoursAboveAir(
  coreC: readonly (number | null)[],
  airC: readonly (number | null)[],
): number | null {
  let sum = 0;
  let counted = 0;
  for (let hour = 1; hour < coreC.length; hour += 1) {
    const [before, now] = [excessK(coreC, airC, hour - 1), excessK(coreC, airC, hour)];
    if (before === null || now === null) continue;
    sum += (before + now) / 2;
    counted += 1;
  }
  return counted === 0 ? null : sum;
}

function excessK(coreC: readonly (number | null)[], airC: readonly (number | null)[], hour: number): number | null {
  const [core, air] = [coreC[hour] ?? null, airC[hour] ?? null];
  return core === null || air === null ? null : Math.max(0, core - air);
}
