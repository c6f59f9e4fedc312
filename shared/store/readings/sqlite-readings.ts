/**
 * The embedded readings store, one SQLite file and nothing to install.
 *
 * A batch is committed as one blob in the inbox and then waits in memory; when much waits, it is flushed into rows and
 * rollups, a step with each batch (`flush-rounds.ts`). What waits is part of every answer, and a crash loses nothing of
 * it: the inbox is read back at opening.
 */

import { setImmediate as nextTurn } from 'node:timers/promises';
import { StoreError } from '../../errors.ts';
import type { Reading } from '../../reading.ts';
import { type Hold, holdFile } from '../hold-file.ts';
import type {
  AppendResult,
  BucketsAnswer,
  Downsampled,
  DownsampleStep,
  ForgetStep,
  KeptReading,
  ProbeName,
  ReadingsStore,
  SeriesLast,
  SeriesPart,
  SeriesRef,
  Weight,
} from '../readings-store.ts';
import Database from '../sqlite-driver.ts';
import { storeError } from '../store-error.ts';
import { bytesOf } from './bytes-of.ts';
import { Downsampler, weightOf } from './downsample.ts';
import { Flusher } from './flush.ts';
import { FlushRounds } from './flush-rounds.ts';
import { type FlushBounds, FlushSchedule } from './flush-schedule.ts';
import { Forgetter } from './forget.ts';
import { Gatherer } from './gather.ts';
import { bytesPerReading } from './inbox.ts';
import { Intake } from './intake.ts';
import { load } from './load.ts';
import { mergeRows } from './merge-rows.ts';
import { prepare } from './prepare.ts';
import { prepareCommit } from './prepare-commit.ts';
import { KnownSeries, SeriesBook } from './series-book.ts';
import { takeDownsampled } from './take-downsampled.ts';
import { planBuckets } from './tiers.ts';
import { mustBeWhole, noBuckets, wholeRange } from './whole-range.ts';

export interface SqliteReadingsOptions extends FlushBounds {
  /** So many raw rows a step of downsampling takes away at most. */
  readonly downsampleRows?: number;
  /** So many rows a step of forgetting takes away at most. */
  readonly forgetRows?: number;
}

const defaultDownsampleRows = 4_096;
const defaultForgetRows = 4_096;
/** Pages given back in a step of downsampling at most, 4 KiB each. */
const downsamplePages = 128;
/** Counting stands back for other work after so long [ms]. */
const longestCountMs = 5;

/** Room for the largest batch, written and given back; what a crash between the two leaves goes with the next. */
const pulseSql = `INSERT INTO pulse VALUES (zeroblob(${10_000 * bytesPerReading})); DELETE FROM pulse;`;

const inMemory = ':memory:';

/**
 * Opens the store at `path`, making or migrating it as needed. Synchronous: it serves once this returns.
 * @param path a file in an existing folder, or ":memory:".
 * @throws {StoreError} one line: the file is held by another process, damaged, or from a later version.
 */
export function openSqliteReadings(path: string, options: SqliteReadingsOptions = {}): ReadingsStore {
  const hold = path === inMemory ? undefined : holdFile(path);
  try {
    // A foreign program may lock the file for a moment; everything stands still meanwhile, so not for long.
    return new SqliteReadings(new Database(path, { timeout: 250 }), options, hold);
  } catch (cause) {
    hold?.release();
    throw storeError(`open the readings in ${path}`, cause, path);
  }
}

export class SqliteReadings implements ReadingsStore {
  readonly #db: Database.Database;
  readonly #hold: Hold | undefined;
  readonly #options: SqliteReadingsOptions;
  readonly #book = new SeriesBook();
  readonly #intake: Intake;
  readonly #rounds: FlushRounds;
  readonly #schedule: FlushSchedule;
  readonly #gatherer: Gatherer;
  readonly #downsampler: Downsampler;
  readonly #forgetter: Forgetter;
  readonly #commit: () => void;
  #writeFailed = false;

  /** @param db handed over: closed with the store. Tests give one of their own to make it fail. */
  constructor(db: Database.Database, options: SqliteReadingsOptions = {}, hold?: Hold) {
    this.#db = db;
    this.#hold = hold;
    this.#options = options;
    try {
      prepare(db);
      const flushedValue = db
        .prepare<[number, number], number>('SELECT value FROM reading WHERE series_id = ? AND at_ms = ?')
        .pluck();
      this.#intake = new Intake(this.#book, (series, atMs) => flushedValue.get(series.id, atMs));
      this.#rounds = new FlushRounds(this.#book, new Flusher(db));
      this.#schedule = new FlushSchedule(this.#rounds, this.#book, {
        ...options,
        path: db.name,
        onFailure: () => this.#failed(),
      });
      this.#gatherer = new Gatherer(db);
      this.#downsampler = new Downsampler(db, this.#book, this.#rounds);
      this.#forgetter = new Forgetter(db, this.#book, this.#rounds);
      this.#commit = prepareCommit(db, this.#intake, this.#rounds);
      load(db, this.#book, this.#rounds);
    } catch (cause) {
      db.close();
      throw cause;
    }
  }

  async append(readings: readonly Reading[]): Promise<AppendResult> {
    this.#mustBeOpen();
    if (this.#schedule.isFull) this.#schedule.step();
    const result = this.#attempt('read what is already kept', () => this.#intake.take(readings));
    if (result.newCount === 0) return result;
    try {
      this.#commit();
      this.#writeFailed = false;
    } catch (cause) {
      this.#intake.undo();
      this.#writeFailed = true;
      throw storeError(`keep ${readings.length} readings`, cause, this.#db.name);
    }
    this.#rounds.count += result.newCount;
    this.#rounds.newestBatch += 1;
    if (this.#rounds.underWay || this.#rounds.count >= this.#schedule.flushAt)
      this.#schedule.stepOrLater(result.newCount);
    return result;
  }

  async buckets(series: readonly SeriesPart[], fromMs: number, toMs: number, points: number): Promise<BucketsAnswer> {
    this.#mustBeOpen();
    mustBeWhole('points', points, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const plan = planBuckets(fromTimeMs, toTimeMs, points);
    const columns = series.map((part) => {
      const known = this.#find(part);
      const [partFromMs, partToMs] = wholeRange(part.fromMs ?? 0, part.toMs ?? Number.POSITIVE_INFINITY);
      const startMs = Math.max(fromTimeMs, partFromMs);
      const endMs = Math.min(toTimeMs, partToMs);
      if (known === undefined || startMs >= endMs) return noBuckets();
      return this.#attempt('gather readings', () => this.#gatherer.gather(known, startMs, endMs, plan));
    });
    return { bucketMs: plan.bucketMs, columns };
  }

  async rows(series: readonly SeriesRef[], fromMs: number, toMs: number, limit: number): Promise<KeptReading[]> {
    this.#mustBeOpen();
    mustBeWhole('limit', limit, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const known = new Set(series.map((ref) => this.#find(ref)).filter((found) => found !== undefined));
    return this.#attempt('read readings', () => mergeRows(this.#db, [...known], fromTimeMs, toTimeMs, limit));
  }

  async lasts(sites?: readonly string[]): Promise<SeriesLast[]> {
    this.#mustBeOpen();
    const all = sites ? this.#book.all.filter(({ site }) => sites.includes(site)) : this.#book.all;
    return Array.from(all, ({ site, probe, quantity, firstAtMs, lastAtMs, lastValue }) => ({
      site,
      probe,
      quantity,
      firstAtMs,
      atMs: lastAtMs,
      value: lastValue,
    }));
  }

  async downsample(beforeMs: number): Promise<DownsampleStep> {
    this.#mustBeOpen();
    const [wholeMs] = wholeRange(beforeMs, beforeMs);
    try {
      return this.#downsampler.step(wholeMs, this.#options.downsampleRows ?? defaultDownsampleRows, downsamplePages);
    } catch (cause) {
      this.#writeFailed = true;
      throw storeError('thin the readings', cause, this.#db.name);
    }
  }

  async takeDownsampled({ site, probe, quantity }: SeriesRef, downsampled: Downsampled): Promise<void> {
    this.#mustBeOpen();
    this.#attempt('take over what was downsampled', () => {
      // What waits would be flushed over rollups that are complete without it.
      this.#rounds.finish();
      const known = this.#book.find(site, probe, quantity);
      const series = known ?? new KnownSeries(site, probe, quantity);
      takeDownsampled(this.#db, series, downsampled);
      if (known === undefined) this.#book.add(series);
    });
  }

  async forget(probes: readonly ProbeName[]): Promise<ForgetStep> {
    this.#mustBeOpen();
    try {
      this.#forgetter.hide(probes.flatMap(({ site, probe }) => this.#book.ofProbe(site, probe)));
      if (probes.length > 0) this.#downsampler.beginAnew();
      return this.#forgetter.step(this.#options.forgetRows ?? defaultForgetRows);
    } catch (cause) {
      this.#writeFailed = true;
      throw storeError('forget what probes said', cause);
    }
  }

  async rawFrom(series: readonly SeriesRef[]): Promise<number> {
    this.#mustBeOpen();
    return series.reduce((latest, ref) => Math.max(latest, this.#find(ref)?.watermarkMs ?? 0), 0);
  }

  async watermark(): Promise<number> {
    this.#mustBeOpen();
    return this.#attempt('read how far was downsampled', () => this.#downsampler.watermarkMs());
  }

  async weigh(fromMs: number, toMs: number): Promise<Weight> {
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const sum = { rows: 0, rollups: 0 };
    let sinceMs = performance.now();
    for (const series of [...this.#book.all]) {
      this.#mustBeOpen();
      this.#attempt('count readings', () => this.#downsampler.weigh(series, fromTimeMs, toTimeMs, sum));
      if (performance.now() - sinceMs < longestCountMs) continue;
      await nextTurn();
      sinceMs = performance.now();
    }
    return weightOf(sum);
  }

  async size(): Promise<{ rows: number; bytes: number }> {
    this.#mustBeOpen();
    let rows = this.#rounds.count;
    for (const series of this.#book.all) rows += series.flushedCount;
    return { rows, bytes: bytesOf(this.#db) };
  }

  async check(): Promise<void> {
    this.#mustBeOpen();
    this.#attempt('write to the readings', () => {
      // A full disk only shows when something is really written; in good times that would just wear the disk.
      if (this.#writeFailed) this.#db.exec(pulseSql);
      else this.#db.exec('BEGIN IMMEDIATE; ROLLBACK');
      this.#writeFailed = false;
    });
  }

  giveBack(): void {
    if (this.#db.open) this.#db.pragma('shrink_memory');
  }

  async close(): Promise<void> {
    if (!this.#db.open) return;
    try {
      this.#rounds.finish();
    } catch {
      // It is safe in the inbox and waits there for the next opening.
    }
    this.#db.close();
    this.#hold?.release();
  }

  #failed(): void {
    this.#writeFailed = true;
  }

  #find(ref: SeriesRef): KnownSeries | undefined {
    return this.#book.find(ref.site, ref.probe, ref.quantity);
  }

  #attempt<Result>(attempt: string, run: () => Result): Result {
    try {
      return run();
    } catch (cause) {
      if (cause instanceof RangeError) throw cause;
      throw storeError(attempt, cause, this.#db.name);
    }
  }

  #mustBeOpen(): void {
    if (!this.#db.open) throw new StoreError('Cannot use the readings as the store is closed');
  }
}
