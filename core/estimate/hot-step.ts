/** How far past its limits a position is said to be, with a deadband: its words and its order do not change while it hovers at one. */
import { z } from 'zod';
import type { StageLimits } from '../../shared/stage.ts';
import { chipErrorK, temperatureDeadbandK } from '../alarms/policies.ts';

/** 0 below the limit at which to act, or as near to it as its probe may be off; 1 past it; 2 at the limit of loss. */
export const hotStepSchema = z.literal([0, 1, 2]);
export type HotStep = z.infer<typeof hotStepSchema>;

/**
 * @param was The step it stood on.
 * @example of 50 and 60 °C: hotStepAt(0, 50.3) // => 0; hotStepAt(1, 50.3) // => 1; hotStepAt(2, 59.5) // => 2
 */
export function hotStepAt(was: HotStep, tempC: number, { actC, lossC }: Pick<StageLimits, 'actC' | 'lossC'>): HotStep {
  if (tempC >= (was === 2 ? lossC - temperatureDeadbandK : lossC)) return 2;
  return tempC > actC && (was > 0 || tempC >= actC + chipErrorK) ? 1 : 0;
}
