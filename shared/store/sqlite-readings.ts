/**
 * shared/store/sqlite-readings.ts: the embedded readings store, one SQLite file and nothing to install.
 *
 * A batch is committed as one blob in the inbox and then waits in memory; many batches later all that waits is
 * settled at once into rows and rollups (readings/settle.ts). What waits is part of every answer, and a crash
 * loses nothing of it: the inbox is read back at opening.
 */
import { statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { StoreError } from '../errors.ts';
import type { Quantity } from '../quantity.ts';
import type { Reading } from '../reading.ts';
import { type Hold, holdFile } from './hold-file.ts';
import { Gatherer } from './readings/gather.ts';
import { bytesPerReading, unpack } from './readings/inbox.ts';
import { Intake } from './readings/intake.ts';
import { mergeRows } from './readings/merge-rows.ts';
import { migrate } from './readings/schema.ts';
import { KnownSeries, SeriesBook } from './readings/series-book.ts';
import { Settler } from './readings/settle.ts';
import { planBuckets } from './readings/tiers.ts';
import type {
  AppendResult,
  BucketColumns,
  BucketsAnswer,
  ReadingsStore,
  SeriesLast,
  SeriesRef,
} from './readings-store.ts';
import { storeError } from './store-error.ts';

export interface SqliteReadingsOptions {
  /** So many readings may wait before they are settled: 32,768 take about 40 ms, and a second at full load. */
  readonly settleAt?: number;
}

const defaultSettleAt = 32_768;
/** While settling keeps failing, readings are still taken until so many times `settleAt` wait. */
const waitingLimitTimes = 8;

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
    throw storeError(`open the readings in ${path}`, cause);
  }
}

export class SqliteReadings implements ReadingsStore {
  readonly #db: Database.Database;
  readonly #hold: Hold | undefined;
  readonly #settleAt: number;
  readonly #book = new SeriesBook();
  readonly #intake: Intake;
  readonly #settler: Settler;
  readonly #gatherer: Gatherer;
  readonly #commit: () => void;
  readonly #waitingSeries = new Set<KnownSeries>();
  #waitingCount = 0;
  #tryToSettleAt: number;
  #writeFailed = false;

  /** @param db handed over: closed with the store. Tests give one of their own to make it fail. */
  constructor(db: Database.Database, options: SqliteReadingsOptions = {}, hold?: Hold) {
    this.#db = db;
    this.#hold = hold;
    this.#settleAt = options.settleAt ?? defaultSettleAt;
    this.#tryToSettleAt = this.#settleAt;
    try {
      prepare(db);
      const settledValue = db
        .prepare<[number, number], number>('SELECT value FROM reading WHERE series_id = ? AND at_ms = ?')
        .pluck();
      this.#intake = new Intake(this.#book, (series, atMs) => settledValue.get(series.id, atMs));
      this.#settler = new Settler(db);
      this.#gatherer = new Gatherer(db);
      this.#commit = this.#preparedCommit();
      this.#load();
    } catch (cause) {
      db.close();
      throw cause;
    }
  }

  async append(readings: readonly Reading[]): Promise<AppendResult> {
    this.#mustBeOpen();
    if (this.#waitingCount >= waitingLimitTimes * this.#settleAt) this.#settle();
    const result = this.#attempt('read what is already kept', () => this.#intake.take(readings));
    if (result.newCount === 0) return result;
    try {
      this.#commit();
      this.#writeFailed = false;
    } catch (cause) {
      this.#intake.undo();
      this.#writeFailed = true;
      throw storeError(`keep ${readings.length} readings`, cause);
    }
    for (const series of this.#intake.touched) this.#waitingSeries.add(series);
    this.#waitingCount += result.newCount;
    if (this.#waitingCount >= this.#tryToSettleAt) this.#settleOrLater();
    return result;
  }

  async buckets(series: readonly SeriesRef[], fromMs: number, toMs: number, points: number): Promise<BucketsAnswer> {
    this.#mustBeOpen();
    mustBeWhole('points', points, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const plan = planBuckets(fromTimeMs, toTimeMs, points);
    const columns = series.map((ref) => {
      const known = this.#find(ref);
      if (known === undefined || fromTimeMs >= toTimeMs) return noBuckets();
      return this.#attempt('gather readings', () => this.#gatherer.gather(known, fromTimeMs, toTimeMs, plan));
    });
    return { bucketMs: plan.bucketMs, columns };
  }

  async rows(series: readonly SeriesRef[], fromMs: number, toMs: number, limit: number): Promise<Reading[]> {
    this.#mustBeOpen();
    mustBeWhole('limit', limit, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const known = new Set(series.map((ref) => this.#find(ref)).filter((found) => found !== undefined));
    return this.#attempt('read readings', () => mergeRows(this.#db, [...known], fromTimeMs, toTimeMs, limit));
  }

  async lasts(): Promise<SeriesLast[]> {
    this.#mustBeOpen();
    return Array.from(this.#book.all, ({ site, probe, quantity, firstAtMs, lastAtMs, lastValue }) => ({
      site,
      probe,
      quantity,
      firstAtMs,
      atMs: lastAtMs,
      value: lastValue,
    }));
  }

  async size(): Promise<{ rows: number; bytes: number }> {
    this.#mustBeOpen();
    let rows = this.#waitingCount;
    for (const series of this.#book.all) rows += series.settledCount;
    return { rows, bytes: this.#bytes() };
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

  async close(): Promise<void> {
    if (!this.#db.open) return;
    if (this.#waitingCount > 0) this.#settleOrLater();
    this.#db.close();
    this.#hold?.release();
  }

  #preparedCommit(): () => void {
    const addSeries = this.#db.prepare('INSERT INTO series (site, probe, quantity) VALUES (?, ?, ?)');
    const addBatch = this.#db.prepare('INSERT INTO inbox (rows) VALUES (?)');
    return this.#db.transaction(() => {
      for (const series of this.#intake.newSeries) {
        series.id = Number(addSeries.run(series.site, series.probe, series.quantity).lastInsertRowid);
      }
      addBatch.run(this.#intake.pack());
    }).immediate;
  }

  /** Everything that waits becomes rows and rollups. @throws {StoreError} when it still waits afterwards. */
  #settle(): void {
    try {
      this.#settler.settle(this.#waitingSeries);
    } catch (cause) {
      this.#writeFailed = true;
      throw storeError(`settle ${this.#waitingCount} readings`, cause);
    }
    this.#waitingSeries.clear();
    this.#waitingCount = 0;
    this.#tryToSettleAt = this.#settleAt;
  }

  /** What waits is safe in the inbox, so settling may fail now and be tried again when more has come. */
  #settleOrLater(): void {
    try {
      this.#settle();
    } catch {
      this.#tryToSettleAt = this.#waitingCount + this.#settleAt / 4;
    }
  }

  /** Series and inbox as the file holds them. */
  #load(): void {
    const byId = new Map<number, KnownSeries>();
    for (const row of this.#db.prepare<[], SeriesRow>('SELECT * FROM series').all()) {
      const series = new KnownSeries(row.site, row.probe, row.quantity);
      series.id = row.id;
      series.firstAtMs = row.first_at_ms ?? series.firstAtMs;
      series.lastAtMs = row.last_at_ms ?? series.lastAtMs;
      series.lastValue = row.last_value ?? series.lastValue;
      series.settledLastAtMs = series.lastAtMs;
      series.settledCount = row.settled_count;
      this.#book.add(series);
      byId.set(row.id, series);
    }
    for (const blob of this.#db.prepare<[], Buffer>('SELECT rows FROM inbox ORDER BY id').pluck().iterate()) {
      const { atMs, values, seriesIds } = unpack(blob);
      for (let index = 0; index < atMs.length; index += 1) {
        const series = byId.get(seriesIds[index] as number);
        if (series === undefined)
          throw new StoreError(`Cannot read a waiting batch as series ${seriesIds[index]} must exist`);
        this.#putBack(series, atMs[index] as number, values[index] as number);
      }
    }
  }

  #putBack(series: KnownSeries, atMs: number, value: number): void {
    const newest = atMs > series.lastAtMs;
    series.waiting.add(atMs, value, newest);
    if (newest) {
      series.lastAtMs = atMs;
      series.lastValue = value;
    }
    if (atMs < series.firstAtMs) series.firstAtMs = atMs;
    this.#waitingSeries.add(series);
    this.#waitingCount += 1;
  }

  #find(ref: SeriesRef): KnownSeries | undefined {
    return this.#book.find(ref.site, ref.probe, ref.quantity);
  }

  #bytes(): number {
    if (this.#db.memory) {
      const pages = Number(this.#db.pragma('page_count', { simple: true }));
      return pages * Number(this.#db.pragma('page_size', { simple: true }));
    }
    const { name } = this.#db;
    return [name, `${name}-wal`].reduce((sum, file) => sum + (statSync(file, { throwIfNoEntry: false })?.size ?? 0), 0);
  }

  #attempt<Result>(attempt: string, run: () => Result): Result {
    try {
      return run();
    } catch (cause) {
      if (cause instanceof RangeError) throw cause;
      throw storeError(attempt, cause);
    }
  }

  #mustBeOpen(): void {
    if (!this.#db.open) throw new StoreError('Cannot use the readings as the store is closed');
  }
}

interface SeriesRow {
  id: number;
  site: string;
  probe: string;
  quantity: Quantity;
  first_at_ms: number | null;
  last_at_ms: number | null;
  last_value: number | null;
  settled_count: number;
}

function prepare(db: Database.Database): void {
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL'); // in WAL mode NORMAL would lose the newest commits with the power
  db.pragma('wal_autocheckpoint = 4000'); // the inbox rewrites the same pages; copying them back less often costs less
  db.pragma('journal_size_limit = 67108864');
  db.pragma('cache_size = -32768');
  migrate(db);
}

function wholeRange(fromMs: number, toMs: number): [fromMs: number, toMs: number] {
  if (Number.isNaN(fromMs) || Number.isNaN(toMs)) {
    throw new RangeError(
      `Cannot read a range of time as both ends must be numbers: current value is ${fromMs}..${toMs}`,
    );
  }
  // Readings stand at whole milliseconds, from 0 on.
  const whole = (timeMs: number) => Math.min(Math.max(0, Math.ceil(timeMs)), Number.MAX_SAFE_INTEGER);
  return [whole(fromMs), whole(toMs)];
}

function mustBeWhole(name: string, value: number, least: number): void {
  if (!Number.isSafeInteger(value) || value < least) {
    throw new RangeError(
      `Cannot read readings as ${name} must be a whole number from ${least} on: current value is ${value}`,
    );
  }
}

function noBuckets(): BucketColumns {
  const none = new Float64Array(0);
  return { startMs: none, min: none, mean: none, max: none, count: none };
}
