/**
 * On which side of the warmth that its culture likes a core is, so that a core that hovers at a limit does not change its words: each
 * hour's mean decides with a deadband, and between hours only what lies clear of the limit.
 */
import type { StageLimits } from '../../shared/stage.ts';
import { highLimit, lowLimit } from '../alarms/deadband.ts';
import { temperatureDeadbandK } from '../alarms/policies.ts';

export const comfortSides = ['below', 'within', 'above'] as const;
export type ComfortSide = (typeof comfortSides)[number];

type Comfort = Pick<StageLimits, 'comfortMinC' | 'comfortMaxC'>;

/** @param was The hour before. */
export function comfortOfHour(was: ComfortSide, meanC: number, { comfortMinC, comfortMaxC }: Comfort): ComfortSide {
  if (highLimit(was === 'above', meanC, comfortMaxC, temperatureDeadbandK)) return 'above';
  return lowLimit(was === 'below', meanC, comfortMinC, temperatureDeadbandK) ? 'below' : 'within';
}

/** @param hour By the last hour that is closed. */
export function comfortNow(hour: ComfortSide, coreC: number, { comfortMinC, comfortMaxC }: Comfort): ComfortSide {
  const clearK = hour === 'within' ? temperatureDeadbandK : 0;
  return comfortOfHour(hour, coreC, { comfortMinC: comfortMinC - clearK, comfortMaxC: comfortMaxC + clearK });
}
