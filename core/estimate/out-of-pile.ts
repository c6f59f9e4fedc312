/**
 * Whether a probe that should lie in the pile reads like the air beside it. It never takes a turn for it: a turned pile
 * loses about half of its warmth, a pulled probe all of it.
 */
import { z } from 'zod';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { isSeldom } from './between.ts';
import type { Track } from './track.ts';

export const outSchema = z.object({
  /** Since when a position has read like the air beside the pile after being much warmer; null while it does not. */
  sinceMs: z.number().nullable(),
  /** Change of its hourly mean an hour earlier [K]; 0 when there was none. */
  stepBeforeK: z.number(),
  /** Highest hourly mean above the air in about the last half day, faded; and the same an hour earlier [K]. */
  warmthK: z.number(),
  warmthBeforeK: z.number(),
  /** What it said in the hour before, where position and air are laid together reading by reading; null where hour by hour [°C]. */
  pairedC: z.number().nullable(),
  /** Hours for which it is still suspected of having been pulled out. */
  suspectH: z.number(),
  /** Hours in a row within a degree of the air, and how far the air swung meanwhile [°C]. */
  nearAirH: z.number(),
  airLowC: z.number(),
  airHighC: z.number(),
});
type Out = z.infer<typeof outSchema>;

export const startOut = (): Out => ({
  sinceMs: null,
  stepBeforeK: 0,
  warmthK: 0,
  warmthBeforeK: 0,
  pairedC: null,
  suspectH: 0,
  nearAirH: 0,
  airLowC: 0,
  airHighC: 0,
});

/**
 * A position this warm above the air [K] that is then this near to it [K], or within this share of its warmth [-], may have been
 * pulled; our own choice, no source.
 */
export const wasWarmK = 5;
const nearK = 0.8;
const nearShare = 0.1;
/**
 * It fell there by itself, in two hours: warm air that comes up to a cool bed proves nothing. A turn lets out about half [-]; our
 * own choice, no source.
 */
const ownFallShare = 0.6;
/**
 * It must stay as near for so long, within so long of the fall: a turned bed warms again or lags behind the air [h]; our own choice,
 * no source.
 */
const stayH = 4;
const suspectedForH = 12;
/**
 * Following the air this closely through such a swing is not what a position in a bed does; a dry skin comes nearer to it [K, K, h];
 * our own choice, no source.
 */
const followK = 0.6;
const insideFollows = { swingK: 3, hours: 18 };
const skinFollows = { swingK: 4, hours: 28 };
/**
 * Of a position that is read seldom, so many readings in a row must be as near, for a few are by chance; and after a fall two [readings];
 * our own choice, no source.
 */
const followReadings = 5;

/** From so far above the air on it is in the pile again [K]; our own choice, no source. */
const backK = 3;

/** Whether a position that was so far above the air is now as near to it as only a pulled probe is. */
export function fellToAir(wasAboveK: number, aboveK: number): boolean {
  return wasAboveK >= wasWarmK && Math.abs(aboveK) < Math.max(nearK, nearShare * wasAboveK);
}

/** A position and the air beside it that were read at about the same time. */
export interface ReadTogether {
  readonly positionC: number;
  readonly airC: number;
}

/** So near in time two readings count as one [ms]; our own choice, no source. */
const togetherMs = 30 * msPerMinute;

/**
 * What a position that is read seldom and the air said when they were last read together; null where that is not known. On the lines
 * between readings the one runs ahead of the other, by as much as the newer has come and the other has not.
 */
export function readTogether(followed: Track, air: Track | null): ReadTogether | null {
  if (air === null || !isSeldom(followed) || !isSeldom(air)) return null;
  const near = (one: number, other: number): boolean => Math.abs(one - other) <= togetherMs;
  if (near(followed.atMs, air.atMs)) return { positionC: followed.value, airC: air.value };
  if (near(followed.previousAtMs, air.atMs)) return { positionC: followed.previous, airC: air.value };
  return null;
}

/** Follows one hour of a position that is laid beside the air reading by reading. @param everyMs How often it is read. */
export function followPaired(
  out: Out,
  { positionC, airC }: ReadTogether,
  skin: boolean,
  endMs: number,
  everyMs: number,
): void {
  const { pairedC } = out;
  out.pairedC = positionC;
  followOut(out, pairedC === null ? null : positionC - pairedC, skin, positionC, airC, endMs, everyMs / msPerHour);
}

/**
 * @param stepK Change of the position's hourly mean from the hour before; null when there was none.
 * @param skin Whether the position lies at the pile's outside.
 * @param everyH Hours between its readings where it is read seldom; 0 of any other.
 */
export function followOut(
  out: Out,
  stepK: number | null,
  skin: boolean,
  meanC: number,
  airC: number,
  endMs: number,
  everyH = 0,
): void {
  const aboveK = meanC - airC;
  const distanceK = Math.abs(aboveK);
  // A skin may fall to the air when the sun goes; only a whole day in step with the air tells on it.
  const fellK = -((stepK ?? 0) + out.stepBeforeK);
  out.stepBeforeK = stepK ?? 0;
  // Of its first hours no warmth before is known: a fall is then from no less than what makes it warm.
  const fellFromK = Math.max(wasWarmK, out.warmthBeforeK);
  if (!skin && fellToAir(out.warmthK, aboveK) && fellK >= ownFallShare * fellFromK)
    out.suspectH = Math.max(suspectedForH, 3 * everyH);
  else out.suspectH = Math.max(0, out.suspectH - 1);
  out.warmthBeforeK = out.warmthK;
  // Fades by a fifth an hour, so that only a fall within some hours counts: a pile cools over days.
  out.warmthK = Math.max(aboveK, 0.8 * out.warmthK);

  if (distanceK < (out.suspectH > 0 ? nearK : followK)) {
    out.airLowC = out.nearAirH === 0 ? airC : Math.min(out.airLowC, airC);
    out.airHighC = out.nearAirH === 0 ? airC : Math.max(out.airHighC, airC);
    out.nearAirH += 1;
  } else out.nearAirH = Math.max(0, out.nearAirH - 2);
  const pulled = out.suspectH > 0 && out.nearAirH >= Math.max(stayH, everyH + 1);
  const follows = skin ? skinFollows : insideFollows;
  const followsAir =
    out.nearAirH >= Math.max(follows.hours, followReadings * everyH) && out.airHighC - out.airLowC >= follows.swingK;

  if (out.sinceMs === null) {
    if (pulled || followsAir) out.sinceMs = endMs;
  } else if (aboveK > backK) out.sinceMs = null;
}
