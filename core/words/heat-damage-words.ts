/**
 * Words that the warning of lost culture and the question whether a batch is done share.
 */
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { lossAfterH, type PastHeat, worstHeat } from '../estimate/heat-memory.ts';
import { degrees, duration, tenths } from './words.ts';

/**
 * What to smell and look for. White threads and sweet or earthy smells: extension bulletins, second-hand. Grey, ash-dry patches
 * ("firefang") where heat-loving actinomycetes took over: common practice of compost and mushroom growers, no source.
 */
export const heatDamageSigns =
  'New white threads and a sweet or earthy smell speak for it; no smell or a scorched one, grey patches dry as ash, ammonia or rot speak against it.';

/** @example hoursLong(9.34) // => "9.3 hours"; hoursLong(0.5) // => "30 minutes" */
export function hoursLong(hours: number): string {
  if (hours < 0.95) return duration(hours * msPerHour);
  const shown = tenths(hours);
  return `${shown} ${shown === '1' ? 'hour' : 'hours'}`;
}

/** One sentence on what a batch has been through; null where nothing came to the limit to act. */
export function pastHeatWords(
  heats: readonly PastHeat[],
  { actC, lossC }: Pick<StageLimits, 'actC' | 'lossC'>,
): string | null {
  const worst = worstHeat(heats);
  if (worst === null) return null;
  const { position, peakC, actH, lossH, unjudged } = worst;
  if (lossH >= lossAfterH) {
    const was = `The ${position} lay at ${degrees(lossC)} or more for ${hoursLong(lossH)}, up to ${degrees(peakC)}`;
    return unjudged === null
      ? `${was}; somebody has smelt or looked at it since.`
      : `${was}. Its culture may be lost, and nobody has smelt or looked at it since.`;
  }
  if (peakC >= lossC)
    return `The ${position} came up to ${degrees(peakC)}, and lay at ${degrees(lossC)} or more for ${hoursLong(lossH)}.`;
  return peakC >= actC
    ? `The ${position} lay at ${degrees(actC)} or more for ${hoursLong(actH)}, up to ${degrees(peakC)}.`
    : null;
}
