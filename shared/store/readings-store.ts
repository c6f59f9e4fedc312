/**
 * The repository of every kept reading, whichever database stands behind it.
 *
 * Downsampling takes raw readings away and leaves their rollups. Each series has a watermark of its own, a whole multiple of
 * the coarsest rollup: before it every ten minutes with readings are one stand-in, at the middle of their stretch. It
 * never resolves `append` before the batch would survive a power cut, or keeps half a batch.
 */

import type { Message } from '../messages/message.ts';
import type { Quantity } from '../quantity.ts';
import type { Reading } from '../reading.ts';

export interface SeriesRef {
  readonly site: string;
  readonly probe: string;
  readonly quantity: Quantity;
}

/** A series, or only as much of it as lies in [fromMs, toMs): a probe that served one pile for a while. */
export interface SeriesPart extends SeriesRef {
  readonly fromMs?: number;
  /** Null stands for no end, as in a claim. */
  readonly toMs?: number | null;
}

/** What became of one reading of a batch. */
export const appended = { new: 1, duplicate: 2, conflict: 3, beforeWatermark: 4 } as const;

export interface AppendResult {
  /**
   * One of `appended` per reading, in the order given. A conflict (same identity, other value) keeps the value stored
   * first. A reading before the watermark of its series is not kept: whether it is known already cannot be found out any more.
   */
  readonly outcomes: Uint8Array;
  readonly newCount: number;
  readonly duplicateCount: number;
  readonly conflictCount: number;
  readonly beforeWatermarkCount: number;
}

/** A raw reading; or, with `standsFor`, ten downsampled minutes: their mean, at their middle. */
export interface KeptReading extends Reading {
  readonly standsFor?: { readonly count: number; readonly min: number; readonly max: number };
}

export interface DownsampleStep {
  /** Raw readings that this step took away. */
  readonly removed: number;
  /** All is downsampled that was asked for, and the room is given back as far as the store does that. */
  readonly done: boolean;
}

/** All that is left of a series before its watermark. */
export interface Downsampled {
  readonly watermarkMs: number;
  readonly standIns: readonly KeptReading[];
  /** Of the whole series: either this store has their rows already, or they are downsampled. */
  readonly firstAtMs: number;
  readonly last: { readonly atMs: number; readonly value: number };
}

/** What some time takes up on disk; about, as what a row costs depends on its neighbours. */
export interface Weight {
  /** Raw rows, which downsampling would take away. */
  readonly rows: number;
  readonly bytes: number;
  /** Of the rollups of that time, which stay; null where the database does not tell. */
  readonly rollupBytes: number | null;
}

/** Buckets of one series as columns of equal length, oldest first; a bucket without readings is left out. */
export interface BucketColumns {
  /** Start of each bucket [epoch ms], a whole multiple of the bucket length. */
  readonly startMs: Float64Array;
  readonly min: Float64Array;
  readonly mean: Float64Array;
  readonly max: Float64Array;
  readonly count: Float64Array;
}

export interface BucketsAnswer {
  readonly bucketMs: number;
  /** In the order of the series asked for. */
  readonly columns: readonly BucketColumns[];
}

/** A probe, with all its series. */
export interface ProbeName {
  readonly site: string;
  readonly probe: string;
}

export interface ForgetStep {
  /** Rows that this step took away. */
  readonly removed: number;
  /** Nothing is left of all that was to be forgotten. */
  readonly done: boolean;
}

export interface SeriesLast extends SeriesRef {
  readonly firstAtMs: number;
  readonly atMs: number;
  readonly value: number;
}

export interface ReadingsStore {
  /**
   * Keeps a batch, all of it or nothing.
   * @throws {StoreError} when nothing was kept (disk full, database away); the caller must not acknowledge.
   * @throws {RangeError} when a value is not finite, or a time not a whole number from 0 on, or later than the store can
   *   hold (InfluxDB: the year 2262).
   */
  append(readings: readonly Reading[]): Promise<AppendResult>;

  /**
   * Gathers series over [fromMs, toMs) into at most `points` buckets each, all of one length.
   * Buckets start at whole multiples of their length, so the first may begin before `fromMs`;
   * only readings within [fromMs, toMs), and within a part's own range, count, in the buckets at the edges too.
   * A stand-in counts as all its readings, where its middle lies: buckets of whole ten minutes are what they were
   * before downsampling, and of two ranges that meet within its stretch one has it whole.
   */
  buckets(series: readonly SeriesPart[], fromMs: number, toMs: number, points: number): Promise<BucketsAnswer>;

  /**
   * Readings, and stand-ins where they were downsampled, of several series in [fromMs, toMs), merged by time (oldest first), a page of at most `limit`.
   * A page never splits readings of one time: it stops before a time that does not fit, or, when a single time has
   * more than `limit` readings, holds just that time whole. So ask again from the last time + 1 ms until a page is empty.
   */
  rows(series: readonly SeriesRef[], fromMs: number, toMs: number, limit: number): Promise<KeptReading[]>;

  /** Every series ever seen, or every one of these sites, with its first time and newest value. */
  lasts(sites?: readonly string[]): Promise<SeriesLast[]>;

  /**
   * Takes one short step of downsampling; to be called until it is done, with room for other work between the steps.
   *
   * Brings the watermark of every series to `beforeMs`, taken down to a whole multiple of the coarsest rollup, or to the
   * end of the coarsest rollup of its newest reading, whichever is earlier: a probe that was away may still bring
   * what it kept. A watermark never goes back, and holds from when it is moved, whether its raw rows are gone yet or not.
   * A series begun after a downsampling has none before the next, so that earlier seasons can still be taken in.
   * @throws {StoreError} when nothing was done; the same step can be taken later, also after a restart.
   */
  downsample(beforeMs: number): Promise<DownsampleStep>;

  /**
   * Takes over what another store had downsampled of one series; again and again changes nothing. What this store has of
   * the series before that watermark as rows is hidden by it, so see first that there is none.
   */
  takeDownsampled(series: SeriesRef, downsampled: Downsampled): Promise<void>;

  /**
   * Takes away all that these probes ever said, rollups and stand-ins with it, a short step at a time; to be called
   * again, without probes, until it is done. Once the first step resolves no answer holds anything of them, over
   * restarts too; should one speak again, it begins anew.
   * @throws {StoreError} when nothing was done; always with InfluxDB 3, which takes no rows away.
   */
  forget(probes: readonly ProbeName[]): Promise<ForgetStep>;

  /** Why `forget` always throws; absent where it does not. */
  readonly cannotForget?: Message | undefined;

  /** From when on every reading of all these series stands as it came; 0 where nothing was downsampled. */
  rawFrom(series: readonly SeriesRef[]): Promise<number>;

  /** The newest time that downsampling was brought to, as a whole multiple of the coarsest rollup; 0 before the first. */
  watermark(): Promise<number>;

  /** What [fromMs, toMs) takes up, both taken down to a whole multiple of the coarsest rollup. */
  weigh(fromMs: number, toMs: number): Promise<Weight>;

  /**
   * Raw rows kept, rollups left out, and bytes on disk with all there is (0 where a database does not tell).
   * It may read every row: not for hot paths.
   */
  size(): Promise<{ rows: number; bytes: number }>;

  /** Lets go of pages kept for answers; the next answers keep them again. Absent where a database is its own process. */
  giveBack?(): void;
  /** Resolves when the store can take a batch now. @throws {StoreError} with the reason when it cannot. */
  check(): Promise<void>;

  close(): Promise<void>;
}
