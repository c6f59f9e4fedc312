/**
 * Words that the warning of lost culture and the question whether a batch is done share.
 */
import { tenths } from './words.ts';

/**
 * What to smell and look for. White threads and sweet or earthy smells: extension bulletins, second-hand. Grey, ash-dry patches
 * ("firefang") where heat-loving actinomycetes took over: common practice of compost and mushroom growers, no source.
 */
export const heatDamageSigns =
  'New white threads and a sweet or earthy smell speak for it; no smell at all, grey patches dry as ash, ammonia or rot speak against it.';

/** @example hoursLong(9.34) // => "9.3 hours" */
export function hoursLong(hours: number): string {
  const shown = tenths(hours);
  return `${shown} ${shown === '1' ? 'hour' : 'hours'}`;
}
