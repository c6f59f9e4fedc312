/** Past heat in the shape of the API, for pages, records and files. */
import type { PastHeatAnswer } from '../../shared/contracts/past-heat.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import type { StageLimits } from '../../shared/stage.ts';
import type { PastHeat } from '../estimate/heat-memory.ts';
import { pastHeatMessage } from '../estimate/past-heat-message.ts';

export function heatView(
  heat: readonly PastHeat[],
  { actC, lossC }: Pick<StageLimits, 'actC' | 'lossC'>,
): Omit<PastHeatAnswer, 'says'> {
  const says = pastHeatMessage(heat, { actC, lossC });
  return {
    actC,
    lossC,
    places: heat.map(({ position, peakC, peakAtMs, actH, lossH, unjudged }) => ({
      position,
      peakC: toTenth(peakC),
      peakAt: toInstant(peakAtMs),
      actH: toTenth(actH),
      lossH: toTenth(lossH),
      mayBeLost: unjudged !== null,
    })),
    messages: { says },
  };
}

const toTenth = (value: number): number => Math.round(value * 10) / 10;
