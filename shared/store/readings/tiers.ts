/**
 * The lengths at which rollups are kept, and the bucket lengths charts get. It never asks a tier for part of one of its
 * rows: edges come from finer tiers, at last from raw rows, so cuts are exact.
 */
import { msPerHour, msPerMinute } from '../../units.ts';

/** Length of one rollup row per tier, finest first. The index is what `rollup.tier` holds: never reorder. */
export const tierLengthsMs: readonly number[] = [10 * msPerMinute, msPerHour, 3 * msPerHour];

export const rawTier = -1;

/** A watermark is a whole multiple of this, so that no rollup reaches over one. */
export const watermarkStepMs = 3 * msPerHour;
/** From the start of the finest rollup to its middle, where a downsampled stretch is given. */
export const toMiddleMs = 5 * msPerMinute;

/** Bucket lengths below the finest tier, gathered from raw rows. */
const rawLengthsMs: readonly number[] = [
  1_000,
  2_000,
  5_000,
  10_000,
  15_000,
  30_000,
  msPerMinute,
  2 * msPerMinute,
  5 * msPerMinute,
];

export interface BucketPlan {
  readonly bucketMs: number;
  /** Index into `tierLengthsMs`, or `rawTier`. */
  readonly tier: number;
}

/** How many buckets of one length [fromMs, toMs) touches, when buckets start at whole multiples of it. */
export function bucketCount(fromMs: number, toMs: number, bucketMs: number): number {
  return Math.floor((toMs - 1) / bucketMs) - Math.floor(fromMs / bucketMs) + 1;
}

/**
 * The shortest friendly length that needs at most `points` buckets: one of a few round lengths from raw rows,
 * else the smallest whole multiple of the largest tier that is not longer than (toMs - fromMs) / points.
 */
export function planBuckets(fromMs: number, toMs: number, points: number): BucketPlan {
  const raw = rawLengthsMs.find((lengthMs) => bucketCount(fromMs, toMs, lengthMs) <= points);
  if (raw !== undefined) return { bucketMs: raw, tier: rawTier };
  const wantedMs = (toMs - fromMs) / points;
  const tier = Math.max(
    0,
    tierLengthsMs.findLastIndex((lengthMs) => lengthMs <= wantedMs),
  );
  const tierMs = lengthOf(tier);
  let times = Math.max(1, Math.ceil(wantedMs / tierMs));
  // Alignment can cost a bucket at each edge; with one point the loop ends at the latest at a bucket from 0 on.
  while (bucketCount(fromMs, toMs, times * tierMs) > points) times += 1;
  return { bucketMs: times * tierMs, tier };
}

/** One stretch [fromMs, toMs) to be read from one tier, whose rows it holds whole. */
export interface Stretch {
  readonly tier: number;
  readonly fromMs: number;
  readonly toMs: number;
}

/** Cuts [fromMs, toMs) into stretches, as coarse as `tier` where they fit and finer at the edges; oldest first. */
export function cover(fromMs: number, toMs: number, tier: number): Stretch[] {
  if (fromMs >= toMs) return [];
  if (tier === rawTier) return [{ tier, fromMs, toMs }];
  const lengthMs = lengthOf(tier);
  const innerFromMs = Math.ceil(fromMs / lengthMs) * lengthMs;
  const innerToMs = Math.floor(toMs / lengthMs) * lengthMs;
  if (innerFromMs >= innerToMs) return cover(fromMs, toMs, tier - 1);
  return [
    ...cover(fromMs, innerFromMs, tier - 1),
    { tier, fromMs: innerFromMs, toMs: innerToMs },
    ...cover(innerToMs, toMs, tier - 1),
  ];
}

export function lengthOf(tier: number): number {
  const lengthMs = tierLengthsMs[tier];
  if (lengthMs === undefined) throw new RangeError(`Cannot find tier ${tier} as there are ${tierLengthsMs.length}`);
  return lengthMs;
}
