/** How much of its food a batch has burnt, and how long the culture could work. */
import { z } from 'zod';
import type { Recipe } from '../../shared/contracts/domain/batch.ts';
import { type Bed, shallowM } from '../profiles/bed.ts';
import { hourActivity } from './progress.ts';
import { type AirAround, type BedHeat, hourWork } from './work.ts';

export const workSchema = z.object({
  /** Hours weighted by how well the culture could work in them. */
  activityH: z.number(),
  /** Share of the food burnt so far, and per day over about the last half day, by the heat it must have made [-]. */
  done: z.number(),
  perDay: z.number(),
  /** The most that share has been: a bed that cools faster than reckoned undoes no work. */
  most: z.number(),
  /** Top and base in the hour before, where they were measured [°C]. */
  before: z.object({ topC: z.number().nullable(), baseC: z.number().nullable() }),
});
export type Work = z.infer<typeof workSchema>;

/** No night cools a bed so fast that it would seem to give back this share of its food in an hour: that was a hand [-]; our own, no source. */
const openedPerH = -0.03;
/** Work is eased over half a day, for nights and skins in the sun make it swing [h]; our own, no source. */
const easedH = 12;
/** More than all its food a bed cannot have burnt, however warm it stays; the reckoning may be a third off [-]; our own, no source. */
const mostShare = 1.3;

export const startWork = (): Work => ({
  activityH: 0,
  done: 0,
  perDay: 0,
  most: 0,
  before: { topC: null, baseC: null },
});

/** Keeps top and base for the next hour. @returns What they were in the hour before. */
export function swapBefore(work: Work, topC: number | null, baseC: number | null): Work['before'] {
  const { before } = work;
  work.before = { topC, baseC };
  return before;
}

/** What an hour's work is reckoned from: null where the core was not measured in this hour and the one before. */
export interface SeenHour {
  readonly now: BedHeat;
  readonly before: BedHeat;
  readonly air: AirAround;
}

/** Takes in one hour. @returns Share of the food burnt in it [-]. */
export function followWork(work: Work, seen: SeenHour | null, recipe: Recipe, bed: Bed, waterKgKg: number): number {
  const doneBefore = work.done;
  if (seen !== null) {
    const share = hourWork(seen.now, seen.before, seen.air, recipe, bed, waterKgKg);
    // A thin bed loses at night what it was given by day, and both count; a fall by a hand is no work undone.
    const made = share < openedPerH ? 0 : share;
    work.done = Math.max(0, work.done + made);
    work.perDay += (24 * made - work.perDay) / easedH;
  } else work.done += Math.max(0, work.perDay / 24);
  // What a thin bed is given by day it gives back at night, so that its most would say too much.
  work.most = bed.depthM < shallowM ? work.done : Math.max(work.most, work.done);
  return Math.max(0, Math.min(mostShare, work.done) - doneBefore);
}

export function countActivity(work: Work, coreC: number, moistureFrac: number, excessK: number): void {
  work.activityH += hourActivity(coreC, moistureFrac, excessK);
}
