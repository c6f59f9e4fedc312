/** Air that somebody foretold, and how much of it is reckoned with. */
import { msPerDay, msPerHour } from '../../shared/units.ts';
import type { AirAhead, AirReading } from '../profiles/air-reading.ts';

/** What of it an expected band was worked out with. */
export interface AirAheadUsed {
  readonly source: string;
  readonly issuedMs: number;
  /** The last hour it covers. */
  readonly untilMs: number;
}

/** Older than this, no hour to come is taken from it: the day before says as much by then. Our own choice, no source. */
export const airAheadStaleMs = 2 * msPerDay;
/**
 * Between two points further apart than this nothing is made up: services give six-hourly points for the days after tomorrow [ms]; MET
 * Norway, Locationforecast 2.0, data model.
 */
const longestStepMs = 6 * msPerHour;
/** So many hours must be both measured and foretold before the one is put right by the other, and so far at most [h], [K]; our own choice. */
export const fewestSharedH = 6;
export const sharedH = 24;
export const mostOffsetK = 5;

/** The points that may be reckoned with at `nowMs`, up to the first gap; what is said of them is null where none reaches beyond it. */
export function usableAhead(
  { source, issuedMs, points }: AirAhead,
  nowMs: number,
): { readonly points: readonly AirReading[]; readonly used: AirAheadUsed | null } {
  const isStale = nowMs - issuedMs > airAheadStaleMs;
  const untilMs = isStale ? null : coveredUntilMs(points, nowMs);
  return {
    points: points.filter(({ atMs }) => atMs <= (untilMs ?? nowMs)),
    used: untilMs === null ? null : { source, issuedMs, untilMs },
  };
}

/** The end of the unbroken stretch that lies over `nowMs`; null where nothing lies over it. */
function coveredUntilMs(points: readonly AirReading[], nowMs: number): number | null {
  let untilMs: number | null = null;
  for (const [index, { atMs }] of points.entries()) {
    const before = points[index - 1];
    if (atMs <= nowMs) continue;
    if (before === undefined ? atMs - nowMs > msPerHour : atMs - before.atMs > longestStepMs) break;
    untilMs = atMs;
  }
  return untilMs;
}

/** What stands in where nobody measures beside a pile. */
export interface AirNow {
  readonly tempC: number;
  /** Beside the pile it may be warmer or colder by so much [K]. */
  readonly doubtK: number;
  readonly source: string;
  readonly issuedMs: number;
}

/** The air of a site at `nowMs` out of what was foretold of it; null where no point is near enough on both sides, or all is too old. */
export function airNow({ source, issuedMs, points }: AirAhead, nowMs: number): AirNow | null {
  const from = points.findLast(({ atMs }) => atMs <= nowMs);
  const to = points.find(({ atMs }) => atMs >= nowMs);
  if (nowMs - issuedMs > airAheadStaleMs || !from || !to || to.atMs - from.atMs > longestStepMs) return null;
  return { tempC: between(from, to, nowMs), doubtK: mostOffsetK, source, issuedMs };
}

/** Along the straight line through two points [°C]. */
const between = (from: AirReading, to: AirReading, atMs: number): number =>
  to.atMs === from.atMs
    ? to.tempC
    : from.tempC + ((atMs - from.atMs) / (to.atMs - from.atMs)) * (to.tempC - from.tempC);

/** An issue that differs by this from the one before makes another band of it at once, and others wait for their time [K]; our own choice. */
const otherIssueK = 2;
const comparedH = 24;

/** Whether the next day is foretold otherwise than before, or for the first time. */
export function isOtherIssue(before: readonly AirReading[], next: readonly AirReading[], nowMs: number): boolean {
  const was = foretoldByHour(before, nowMs, comparedH);
  return foretoldByHour(next, nowMs, comparedH).some((tempC, hour) => {
    const differenceK = Math.abs(tempC - (was[hour] ?? Number.NaN));
    return differenceK >= otherIssueK || Number.isNaN(differenceK) !== Number.isNaN(tempC);
  });
}

/** The foretold air at each whole hour from `fromMs`; NaN where nothing covers it [°C]. */
export function foretoldByHour(points: readonly AirReading[], fromMs: number, hours: number): Float64Array {
  const byHour = new Float64Array(hours + 1).fill(Number.NaN);
  for (const [index, to] of points.entries()) {
    const from = points[index - 1] ?? to;
    if (to.atMs - from.atMs > longestStepMs) continue;
    const first = Math.max(0, Math.ceil((from.atMs - fromMs) / msPerHour));
    const last = Math.min(hours, Math.floor((to.atMs - fromMs) / msPerHour));
    for (let hour = first; hour <= last; hour += 1) {
      byHour[hour] = between(from, to, fromMs + hour * msPerHour);
    }
  }
  return byHour;
}

/**
 * How much warmer it is beside the pile than foretold [K], from the last day in which both are known: a shed is not the open
 * field. Nothing while they share too few hours.
 */
export function besideThePileK(measured: Float64Array, foretold: Float64Array, lastHour: number): number {
  let sum = 0;
  let count = 0;
  for (let hour = Math.max(0, lastHour - sharedH + 1); hour <= lastHour; hour += 1) {
    const differenceK = (measured[hour] ?? Number.NaN) - (foretold[hour] ?? Number.NaN);
    if (Number.isNaN(differenceK)) continue;
    sum += differenceK;
    count += 1;
  }
  return count < fewestSharedH ? 0 : Math.min(mostOffsetK, Math.max(-mostOffsetK, sum / count));
}
