/**
 * One series gathered into buckets of one length. It never writes, so charts can be drawn while the disk is full.
 */
import type { Database, Statement } from 'better-sqlite3';
import type { BucketColumns } from '../readings-store.ts';
import type { KnownSeries } from './series-book.ts';
import {
  type BucketPlan,
  bucketCount,
  cover,
  lengthOf,
  rawTier,
  type Stretch,
  toMiddleMs,
  watermarkStepMs,
} from './tiers.ts';
import { firstFrom } from './waiting.ts';

/** What one stretch of time holds; `n` is null or 0 when it is empty. */
type Sums = [n: number | null, min: number, max: number, sum: number];
/** A rollup row with its time. */
type RollupRow = [atMs: number, n: number, min: number, max: number, sum: number];

/** Up to this many rollup rows in a bucket, all of them are read by one query; beyond it the database adds up quicker. */
const mostRowsPerBucket = 4;

const finestTier = 0;
const nothing: Sums = [null, 0, 0, 0];

export class Gatherer {
  // One small query per bucket walks the key in order and adds up as it goes; one GROUP BY over the whole range
  // would sort first, as the planner cannot know that at_ms / length grows with at_ms: 20 times slower on a year of rows.
  readonly #raw: Statement<[number, number, number], Sums>;
  readonly #rollup: Statement<[number, number, number, number], Sums>;
  readonly #rollupRows: Statement<[number, number, number, number], RollupRow>;

  constructor(db: Database) {
    this.#raw = db
      .prepare<[number, number, number], Sums>(
        'SELECT count(*), min(value), max(value), sum(value) FROM reading WHERE series_id = ? AND at_ms >= ? AND at_ms < ?',
      )
      .raw();
    this.#rollup = db
      .prepare<[number, number, number, number], Sums>(
        'SELECT sum(n), min(min), max(max), sum(sum) FROM rollup WHERE tier = ? AND series_id = ? AND at_ms >= ? AND at_ms < ?',
      )
      .raw();
    this.#rollupRows = db
      .prepare<[number, number, number, number], RollupRow>(
        'SELECT at_ms, n, min, max, sum FROM rollup WHERE tier = ? AND series_id = ? AND at_ms >= ? AND at_ms < ?',
      )
      .raw();
  }

  gather(series: KnownSeries, fromMs: number, toMs: number, { bucketMs, tier }: BucketPlan): BucketColumns {
    const firstMs = Math.floor(fromMs / bucketMs) * bucketMs;
    const sums = new BucketSums(firstMs, bucketMs, bucketCount(fromMs, toMs, bucketMs));
    // Nothing is flushed outside these, so a short history in a long range costs little.
    // A stand-in may lie beside all of its readings, but not outside its rollup.
    const isDownsampled = series.watermarkMs > 0;
    const flushedFromMs = Math.max(fromMs, series.firstAtMs - (isDownsampled ? watermarkStepMs : 0));
    const flushedToMs = Math.min(toMs, series.flushedLastAtMs + (isDownsampled ? watermarkStepMs : 1));
    const whole = this.#addWhole(sums, series.id, flushedFromMs, flushedToMs, { bucketMs, tier });
    for (let startMs = firstMs; startMs < flushedToMs; startMs += bucketMs) {
      if (startMs === whole.fromMs) startMs = whole.toMs;
      if (startMs >= flushedToMs) break;
      const endMs = startMs + bucketMs;
      if (endMs <= flushedFromMs) continue;
      for (const stretch of stretches(Math.max(startMs, fromMs), Math.min(endMs, toMs), tier)) {
        const [n, min, max, sum] = this.#read(series, stretch);
        if (n) sums.add(startMs, n, min, max, sum);
      }
    }
    addWaiting(sums, series, fromMs, toMs);
    return sums.columns();
  }

  /** Adds the whole buckets of a range by one query, where each holds few rows. @returns What of the range is done. */
  #addWhole(
    sums: BucketSums,
    id: number,
    fromMs: number,
    toMs: number,
    { bucketMs, tier }: BucketPlan,
  ): { fromMs: number; toMs: number } {
    const wholeFromMs = Math.ceil(fromMs / bucketMs) * bucketMs;
    const wholeToMs = Math.floor(toMs / bucketMs) * bucketMs;
    if (tier === rawTier || bucketMs > mostRowsPerBucket * lengthOf(tier) || wholeFromMs >= wholeToMs) {
      return { fromMs: Number.NaN, toMs: Number.NaN };
    }
    for (const [atMs, n, min, max, sum] of this.#rollupRows.all(tier, id, wholeFromMs, wholeToMs)) {
      sums.add(atMs, n, min, max, sum);
    }
    return { fromMs: wholeFromMs, toMs: wholeToMs };
  }

  #read({ id, watermarkMs }: KnownSeries, { tier, fromMs, toMs }: Stretch): Sums {
    if (tier !== rawTier) return this.#rollup.get(tier, id, fromMs, toMs) ?? nothing;
    // No stretch of raw rows reaches over a watermark: they are shorter than what it is a multiple of.
    if (fromMs < watermarkMs)
      return this.#rollup.get(finestTier, id, fromMs - toMiddleMs, toMs - toMiddleMs) ?? nothing;
    return this.#raw.get(id, fromMs, toMs) ?? nothing;
  }
}

function stretches(fromMs: number, toMs: number, tier: number): readonly Stretch[] {
  // Nearly every bucket is whole; only the two at the edges need cutting up.
  const whole = tier === rawTier || (fromMs % lengthOf(tier) === 0 && toMs % lengthOf(tier) === 0);
  return whole ? [{ tier, fromMs, toMs }] : cover(fromMs, toMs, tier);
}

function addWaiting(sums: BucketSums, series: KnownSeries, fromMs: number, toMs: number): void {
  const { atMs, values } = series.waiting.sorted();
  for (let index = firstFrom(atMs, fromMs); index < atMs.length; index += 1) {
    const time = atMs[index] as number;
    if (time >= toMs) return;
    const value = values[index] as number;
    sums.add(time, 1, value, value, value);
  }
}

class BucketSums {
  readonly #firstMs: number;
  readonly #bucketMs: number;
  readonly #n: Float64Array;
  readonly #min: Float64Array;
  readonly #max: Float64Array;
  readonly #sum: Float64Array;

  constructor(firstMs: number, bucketMs: number, count: number) {
    this.#firstMs = firstMs;
    this.#bucketMs = bucketMs;
    this.#n = new Float64Array(count);
    this.#min = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
    this.#max = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
    this.#sum = new Float64Array(count);
  }

  add(atMs: number, n: number, min: number, max: number, sum: number): void {
    const index = Math.floor((atMs - this.#firstMs) / this.#bucketMs);
    this.#n[index] = (this.#n[index] as number) + n;
    this.#min[index] = Math.min(this.#min[index] as number, min);
    this.#max[index] = Math.max(this.#max[index] as number, max);
    this.#sum[index] = (this.#sum[index] as number) + sum;
  }

  columns(): BucketColumns {
    const count = this.#n.filter((n) => n > 0);
    const filled = count.length;
    const columns = {
      startMs: new Float64Array(filled),
      min: new Float64Array(filled),
      mean: new Float64Array(filled),
      max: new Float64Array(filled),
      count,
    };
    let to = 0;
    for (const [index, n] of this.#n.entries()) {
      if (n === 0) continue;
      const min = this.#min[index] as number;
      const max = this.#max[index] as number;
      columns.startMs[to] = this.#firstMs + index * this.#bucketMs;
      columns.min[to] = min;
      // Sums round, so that the mean of equal values could come out a hair beside them.
      columns.mean[to] = Math.min(max, Math.max(min, (this.#sum[index] as number) / n));
      columns.max[to] = max;
      to += 1;
    }
    return columns;
  }
}
