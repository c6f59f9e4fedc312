/**
 * Measured temperatures as columns, and the same as one value per whole hour of a batch's age. It never bridges a gap
 * that is long for the rhythm in which the batch was measured.
 */
import { msPerHour } from '../../shared/units.ts';
import { warmestGuessC } from '../estimate/air.ts';
import { began, warmExcessK } from '../estimate/phase.ts';
import { longestGapMs as hourlyGapMs } from '../records/heat-log.ts';

/** Equal lengths, oldest first. */
export interface Columns {
  readonly atMs: ArrayLike<number>;
  readonly meanC: ArrayLike<number>;
  readonly maxC: ArrayLike<number>;
}

/** A hand-written table has one value a day; beyond a day and a half a day was left out [ms]; our own choice, no source. */
const longestGapMs = 36 * msPerHour;

/** Up to this gap two neighbours are joined: 2.5 of the usual interval, between 75 minutes and 36 hours. Our own choice. */
export function gapLimitMs(atMs: ArrayLike<number>): number {
  const intervalMs = usualIntervalMs(atMs);
  return intervalMs === null ? hourlyGapMs : Math.min(longestGapMs, Math.max(hourlyGapMs, 2.5 * intervalMs));
}

/** Median time between neighbours; null with fewer than two values. */
export function usualIntervalMs(atMs: ArrayLike<number>): number | null {
  if (atMs.length < 2) return null;
  const intervals = new Float64Array(atMs.length - 1);
  for (let i = 0; i < intervals.length; i += 1) intervals[i] = (atMs[i + 1] as number) - (atMs[i] as number);
  intervals.sort();
  return intervals[intervals.length >> 1] as number;
}

/**
 * @param hours Last whole hour of age wanted.
 * @returns Length hours + 1; index is the age [h].
 */
export function hourlyCourse(columns: Columns, startedAtMs: number, hours: number): (number | null)[] {
  const { atMs, meanC } = columns;
  const course: (number | null)[] = new Array(hours + 1).fill(null);
  const limitMs = gapLimitMs(atMs);
  let right = 0;
  for (let hour = 0; hour <= hours; hour += 1) {
    const wantedMs = startedAtMs + hour * msPerHour;
    while (right < atMs.length && (atMs[right] as number) < wantedMs) right += 1;
    if (right >= atMs.length) break;
    const rightMs = atMs[right] as number;
    const rightC = meanC[right] as number;
    if (rightMs === wantedMs) course[hour] = rightC;
    if (rightMs === wantedMs || right === 0) continue;
    const leftMs = atMs[right - 1] as number;
    if (rightMs - leftMs > limitMs) continue;
    const leftC = meanC[right - 1] as number;
    course[hour] = leftC + ((wantedMs - leftMs) / (rightMs - leftMs)) * (rightC - leftC);
  }
  return course;
}

/**
 * Age at which the core began to warm [h], as a running batch is judged; null when it never did. Without air the coolest the core began with stands for it.
 */
export function warmingBeganH(coreC: readonly (number | null)[], airC: readonly (number | null)[]): number | null {
  let first: number | null = null;
  for (let hour = 0; hour < coreC.length; hour += 1) {
    const core = coreC[hour] ?? null;
    if (core === null) continue;
    first ??= core;
    const air = meanOf(airC.slice(Math.max(0, hour - 23), hour + 1)) ?? Math.min(first, warmestGuessC);
    const before = coreC.slice(Math.max(0, hour - 6), hour).find((value) => value != null) ?? first;
    if (core - air >= warmExcessK && core - before >= began.riseK) return hour;
  }
  return null;
}

export function meanOf(values: readonly (number | null)[]): number | null {
  let sum = 0;
  let count = 0;
  for (const value of values) {
    if (value === null) continue;
    sum += value;
    count += 1;
  }
  return count === 0 ? null : sum / count;
}
