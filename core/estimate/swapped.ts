/**
 * Whether the probes of core and top may have been swapped: the one that should lie deep swings with the air of the day, the other
 * less so and is the warmer. A bed that works at its top alone is warmer there too, but its top still feels the air more than its core.
 */
import { z } from 'zod';
import { msPerHour } from '../../shared/units.ts';
import type { Disturbance } from './disturbance.ts';
import type { Positions } from './position.ts';

export const swappedSchema = z.object({
  /** Faded sums, hour by hour: change of the air by itself, by that of the core’s probe and by that of the top’s [K²]. */
  airK2: z.number(),
  coreAirK2: z.number(),
  topAirK2: z.number(),
  /** Each of the two by itself [K²]. */
  coreK2: z.number(),
  topK2: z.number(),
  /** Hours in which the two fit the other way round, less twice those in which they do not [h]. */
  forH: z.number(),
});
type Swapped = z.infer<typeof swappedSchema>;

/** What the air taught fades over so long [h]: two days, so that the way a bed warms up by itself is not taken for the air; our own choice, no source. */
const fadesOverH = 48;
/** Hours in a row, and the most that are counted, so that it ends within half a day of being put right [h]; our own choice, no source. */
export const swappedAfterH = 12;
const mostForH = 24;
/**
 * The core’s probe follows the air by this share and by so much more than the top’s, which does not run against it, in air that moved
 * so much; and the top is so much warmer over the day [-, -, -, K², K]. On the development piles of the detection bench no probe that
 * lay right fitted for an hour.
 */
const follows = { share: 0.1, moreShare: 0.15, leastTopShare: -0.25, airK2: 3 } as const;
export const warmerK = 1;
/** So long after a hand was there the change of an hour is not the air’s [h]; our own choice, no source. */
const handExplainsH = 6;

export const startSwapped = (): Swapped => ({ airK2: 0, coreAirK2: 0, topAirK2: 0, coreK2: 0, topK2: 0, forH: 0 });

/** @param isBelieved Whether core and top were measured in the hour, and are believed. */
export function followSwapped(
  swapped: Swapped,
  { core, top, air }: Readonly<Positions>,
  { atMs: handAtMs }: Readonly<Disturbance>,
  isBelieved: boolean,
  endMs: number,
): void {
  const coreK = core?.hour.stepK;
  const topK = top?.hour.stepK;
  const airK = air?.hour.stepK;
  const isHandled = handAtMs !== null && endMs - handAtMs < handExplainsH * msPerHour;
  if (coreK == null || topK == null || airK == null || !isBelieved || isHandled) return;
  const kept = 1 - 1 / fadesOverH;
  swapped.airK2 = kept * swapped.airK2 + airK * airK;
  swapped.coreAirK2 = kept * swapped.coreAirK2 + coreK * airK;
  swapped.topAirK2 = kept * swapped.topAirK2 + topK * airK;
  swapped.coreK2 = kept * swapped.coreK2 + coreK * coreK;
  swapped.topK2 = kept * swapped.topK2 + topK * topK;
  const isWarmer = (top?.hour.dayMeanC ?? 0) - (core?.hour.dayMeanC ?? 0) > warmerK;
  swapped.forH =
    isWarmer && fitsSwapped(swapped) ? Math.min(mostForH, swapped.forH + 1) : Math.max(0, swapped.forH - 2);
}

function fitsSwapped({ airK2, coreAirK2, topAirK2, coreK2, topK2 }: Readonly<Swapped>): boolean {
  // A top whose own heat comes and goes lies where it should.
  if (airK2 < follows.airK2 || coreK2 < topK2) return false;
  const coreShare = coreAirK2 / airK2;
  const topShare = topAirK2 / airK2;
  return coreShare > follows.share && coreShare - topShare > follows.moreShare && topShare > follows.leastTopShare;
}
