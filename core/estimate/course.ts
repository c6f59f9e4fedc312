import { chipErrorK } from '../alarms/policies.ts';
import { coreAtHour, coreEndOfHour, type Hours } from './hours.ts';

/** Whether the core has come down from where it was hottest lately, goes on rising, or does neither. */
export type CoreCourse = 'fallen' | 'rising' | 'level';

/** So far back the hottest hour is looked for [h]: a warning of heat is at its strongest within that; our own choice, no source. */
const latelyH = 12;
/**
 * Less than this since the hour began, or from hour to hour, is no rise but the wobble of a chip [K, K/h]; our own choice,
 * no source.
 */
const risenK = 0.2;
const risingKPerH = 0.1;
/** Both sides of what a common chip may be off: a smaller fall may be none [K]. */
const fallK = 2 * chipErrorK;

/** @param nowC The core now, believed [°C]. */
export function coreCourse(hours: Readonly<Hours>, nowC: number): CoreCourse {
  // At its end, not in its mean: a bed that was opened fell within the hour, and may be warming again already.
  const last = endOrMean(hours, hours.done - 1);
  const before = endOrMean(hours, hours.done - 2);
  if (last === null) return 'level';
  if (nowC - last > risenK || (before !== null && last - before > risingKPerH && nowC > last - risingKPerH))
    return 'rising';
  let highestC = last;
  for (let back = 1; back <= latelyH; back += 1) {
    highestC = Math.max(highestC, coreAtHour(hours, hours.done - back) ?? Number.NEGATIVE_INFINITY);
  }
  return highestC - nowC >= fallK ? 'fallen' : 'level';
}

function endOrMean(hours: Readonly<Hours>, hour: number): number | null {
  return coreEndOfHour(hours, hour) ?? coreAtHour(hours, hour);
}
