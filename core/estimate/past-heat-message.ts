/** What is said of the heat that a batch has been through. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { lossAfterH, type PastHeat, worstHeat } from './heat-memory.ts';

/**
 * What to smell and look for where the culture may be lost. White threads and sweet or earthy smells: extension bulletins,
 * second-hand. Grey, ash-dry patches ("firefang") where heat-loving actinomycetes took over: common practice of compost and
 * mushroom growers, no source.
 */
export const lostCultureSigns = message('phase.lost-culture-signs');

/** @returns Null where nothing came to the limit to act. */
export function pastHeatMessage(
  heats: readonly PastHeat[],
  { actC, lossC }: Pick<StageLimits, 'actC' | 'lossC'>,
): Message | null {
  const worst = worstHeat(heats);
  if (worst === null) return null;
  const { position, peakC, actH, lossH, unjudged } = worst;
  if (lossH >= lossAfterH) {
    const was = { position, lossC, lossH, peakC };
    return unjudged === null ? message('phase.past-heat.judged', was) : message('phase.past-heat.unjudged', was);
  }
  if (peakC >= lossC) return message('phase.past-heat.brief', { position, peakC, lossC, lossH });
  return peakC >= actC ? message('phase.past-heat.hot', { position, actC, actH, peakC }) : null;
}
