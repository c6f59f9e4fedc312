/**
 * Measured air as one value per hour, carried on beyond what was measured.
 *
 * Beyond the last reading it is as foretold, as far as that reaches without a gap. Beyond that the day before is repeated,
 * drawn a little towards the mean of the last three days; before the first it is that day's value at the same hour of day.
 * With no reading and nothing foretold: a day about as warm as the bed was laid, or a mild one.
 */
import { msPerHour } from '../../shared/units.ts';
import type { AirReading } from '../profiles/air-reading.ts';
import { usualAirC } from '../profiles/usual-air.ts';
import { besideThePileK, foretoldByHour } from './air-ahead.ts';

/** 5 K up and down, warmest at 15 h UTC. No source. */
function dayC(meanC: number, atMs: number): number {
  return meanC + 5 * Math.cos((2 * Math.PI * (atMs / msPerHour - 15)) / 24);
}

/**
 * @param foretold Air that somebody foretold, oldest first; hours that were measured count as measured.
 * @param guessedC What the air is taken as where nobody measured or foretold any.
 */
export function airCourse(
  air: readonly AirReading[],
  fromMs: number,
  hours: number,
  foretold: readonly AirReading[] = [],
  guessedC = usualAirC,
): Float64Array {
  const course = measuredByHour(air, fromMs, hours);
  const ahead = foretoldByHour(foretold, fromMs, hours);
  const lastMeasured = course.findLastIndex((tempC) => !Number.isNaN(tempC));
  const offsetK = besideThePileK(course, ahead, lastMeasured);
  for (let hour = lastMeasured + 1; hour <= hours; hour += 1) course[hour] = (ahead[hour] ?? Number.NaN) + offsetK;
  let last = -1;
  for (let hour = 0; hour <= hours; hour += 1) {
    if (Number.isNaN(course[hour])) continue;
    bridge(course, last, hour);
    last = hour;
  }
  if (last < 0) return course.map((_, hour) => dayC(guessedC, fromMs + hour * msPerHour));
  carryOn(course, last);
  return course;
}

/** Means of each hour; NaN where nothing was measured [°C]. */
function measuredByHour(air: readonly AirReading[], fromMs: number, hours: number): Float64Array {
  const sums = new Float64Array(hours + 1);
  const counts = new Float64Array(hours + 1);
  for (const { atMs, tempC } of air) {
    const hour = Math.round((atMs - fromMs) / msPerHour);
    if (hour < 0 || hour > hours || !Number.isFinite(tempC)) continue;
    sums[hour] = (sums[hour] ?? 0) + tempC;
    counts[hour] = (counts[hour] ?? 0) + 1;
  }
  return sums.map((sum, hour) => (counts[hour] === 0 ? Number.NaN : sum / (counts[hour] ?? 1)));
}

/** Straight line over a gap; the hours before the first reading take the first reading. */
function bridge(course: Float64Array, from: number, to: number): void {
  const end = course[to] ?? 0;
  const start = from < 0 ? end : (course[from] ?? end);
  for (let hour = from + 1; hour < to; hour += 1) {
    course[hour] = start + ((end - start) * (hour - from)) / (to - from);
  }
}

function carryOn(course: Float64Array, last: number): void {
  let sum = 0;
  let count = 0;
  for (let hour = Math.max(0, last - 71); hour <= last; hour += 1) {
    sum += course[hour] ?? 0;
    count += 1;
  }
  const mean = sum / count;
  for (let hour = last + 1; hour < course.length; hour += 1) {
    const dayBefore = hour >= 24 ? course[hour - 24] : course[last];
    course[hour] = mean + 0.95 * ((dayBefore ?? mean) - mean);
  }
}
