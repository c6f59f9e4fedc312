/**
 * Takes raw rows away whose time has come, and leaves their rollups, a step at a time. It never takes a row away that
 * is not in the rollups: what waits of a series is flushed before its watermark moves.
 */
import type { Database, Statement } from 'better-sqlite3';
import type { DownsampleStep, Weight } from '../readings-store.ts';
import type { FlushRounds } from './flush-rounds.ts';
import type { KnownSeries, SeriesBook } from './series-book.ts';
import { tierLengthsMs, watermarkStepMs } from './tiers.ts';

// Measured with dbstat on a year of minutes of eight series: 99.3 MB in 4,205,000 rows, 23.8 MB in 513,960 rollups.
const bytesPerRow = 23.6;
const bytesPerRollup = 46.3;
/** Free pages kept for what comes next; giving back every one would have the file shrink and grow day by day. */
const keptFreeShare = 0.05;
const coarsestTier = tierLengthsMs.length - 1;

/** Series whose watermark one step moves at most: each is a page of the series table and a look at its rows. */
const mostSeries = 200;

interface Due {
  readonly series: KnownSeries;
  readonly index: number;
  readonly watermarkMs: number;
}

interface Moved extends Due {
  readonly removed: number;
  readonly hasMore: boolean;
}

/** Of one series: raw rows after its watermark; rollups, as many as its readings can fill: 18, 3 and 1 in three hours. */
type Weighed = [rows: number | null, rollups: number | null];

export class Downsampler {
  readonly #db: Database;
  readonly #book: SeriesBook;
  readonly #rounds: FlushRounds;
  readonly #lastOfStep: Statement<[number, number, number], number>;
  readonly #remove: Statement<[number, number]>;
  readonly #moveWatermark: Statement<[number, number]>;
  readonly #noteCount: Statement<[number, number]>;
  readonly #bringTo: Statement<[number]>;
  readonly #weigh: Statement<[number, number, number, number], Weighed>;
  readonly #broughtTo: Statement<[], number>;
  /** Place in the book of the next series of this run. */
  #next = 0;
  #removedInRun = 0;

  constructor(db: Database, book: SeriesBook, rounds: FlushRounds) {
    this.#db = db;
    this.#book = book;
    this.#rounds = rounds;
    this.#lastOfStep = db
      .prepare<[number, number, number], number>(
        'SELECT at_ms FROM reading WHERE series_id = ? AND at_ms < ? ORDER BY at_ms LIMIT 1 OFFSET ?',
      )
      .pluck();
    this.#remove = db.prepare('DELETE FROM reading WHERE series_id = ? AND at_ms < ?');
    this.#moveWatermark = db.prepare('UPDATE series SET horizon_ms = ? WHERE id = ?');
    this.#noteCount = db.prepare('UPDATE series SET settled_count = settled_count - ? WHERE id = ?');
    this.#bringTo = db.prepare('UPDATE thinning SET horizon_ms = max(horizon_ms, ?)');
    this.#broughtTo = db.prepare<[], number>('SELECT horizon_ms FROM thinning').pluck();
    this.#weigh = db
      .prepare<[number, number, number, number], Weighed>(
        `SELECT sum(CASE WHEN at_ms >= ? THEN n ELSE 0 END), sum(min(n, 18) + min(n, 3) + 1) FROM rollup
        WHERE tier = ${coarsestTier} AND series_id = ? AND at_ms >= ? AND at_ms < ?`,
      )
      .raw();
  }

  /** The book was changed: the run begins anew, and passes over what is downsampled. */
  beginAnew(): void {
    this.#next = 0;
  }

  watermarkMs(): number {
    return this.#broughtTo.get() ?? 0;
  }

  /** Takes away at most `rows` rows, or gives back at most `pages` pages. When it throws, nothing was done. */
  step(beforeMs: number, rows: number, pages: number): DownsampleStep {
    const goalMs = wholeStep(beforeMs);
    const due = this.#due(goalMs, rows);
    // First and on its own: a watermark may only move over what is in the rollups.
    this.#rounds.flushSome(
      due.filter(({ series, watermarkMs }) => hasWaitingBefore(series, watermarkMs)).map(bySeries),
    );
    const moved: Moved[] = [];
    this.#db
      .transaction(() => {
        this.#bringTo.run(goalMs);
        let left = rows;
        for (const one of due) {
          if (left < 1) break;
          const change = this.#moveOne(one, left);
          left -= change.removed;
          moved.push(change);
        }
      })
      .immediate();
    const removed = this.#note(moved);
    this.#removedInRun += removed;
    if (this.#next < this.#book.all.length) return { removed, done: false };
    const done = !this.#giveBack(pages);
    if (done) this.#end();
    return { removed, done };
  }

  /** The file is only smaller once the log is copied back into it; so the log goes too, which a run has made long. */
  #end(): void {
    if (this.#removedInRun > 0) this.#db.pragma('wal_checkpoint(TRUNCATE)');
    this.#removedInRun = 0;
    this.#next = 0;
  }

  /** The next few series that have something to downsample, no more than a step can flush and look through. */
  #due(goalMs: number, rows: number): Due[] {
    const due: Due[] = [];
    let waiting = 0;
    for (let index = this.#next; index < this.#book.all.length; index += 1) {
      const series = this.#book.all[index] as KnownSeries;
      const newestEndMs = wholeStep(series.lastAtMs) + watermarkStepMs;
      const watermarkMs = Math.max(series.watermarkMs, Math.min(goalMs, newestEndMs));
      if (watermarkMs > series.watermarkMs || series.hasDownsampledRows) due.push({ series, index, watermarkMs });
      else if (due.length === 0) this.#next = index + 1;
      if (hasWaitingBefore(series, watermarkMs)) waiting += series.waiting.count;
      if (due.length >= mostSeries || waiting >= rows) break;
    }
    return due;
  }

  #moveOne({ series, index, watermarkMs }: Due, rows: number): Moved {
    if (watermarkMs > series.watermarkMs) this.#moveWatermark.run(watermarkMs, series.id);
    const endMs = this.#lastOfStep.get(series.id, watermarkMs, rows);
    const removed = this.#remove.run(series.id, endMs ?? watermarkMs).changes;
    if (removed > 0) this.#noteCount.run(removed, series.id);
    return { series, index, watermarkMs, removed, hasMore: endMs !== undefined };
  }

  /** Only what is committed is remembered. */
  #note(moved: readonly Moved[]): number {
    let sum = 0;
    for (const { series, index, watermarkMs, removed, hasMore } of moved) {
      series.watermarkMs = watermarkMs;
      series.flushedCount -= removed;
      series.hasDownsampledRows = hasMore;
      sum += removed;
      this.#next = hasMore ? index : index + 1;
    }
    return sum;
  }

  /** @returns Whether there is more to give back. A file made before it could shrink keeps its room for later rows. */
  #giveBack(pages: number): boolean {
    const read = (name: string) => Number(this.#db.pragma(name, { simple: true }));
    if (read('auto_vacuum') === 0) return false;
    const spare = read('freelist_count') - Math.ceil(keptFreeShare * read('page_count'));
    if (spare <= 0) return false;
    this.#db.pragma(`incremental_vacuum(${Math.min(spare, pages)})`);
    return spare > pages;
  }

  /** Adds what one series has in [fromMs, toMs), counted from its coarsest rollups and what waits. */
  weigh(series: KnownSeries, fromMs: number, toMs: number, sum: { rows: number; rollups: number }): void {
    const [startMs, endMs] = [wholeStep(fromMs), wholeStep(toMs)];
    const [rows, rollups] = this.#weigh.get(series.watermarkMs, series.id, startMs, endMs) ?? [0, 0];
    sum.rows += rows ?? 0;
    sum.rollups += rollups ?? 0;
    for (const atMs of series.waiting.sorted().atMs) if (atMs >= startMs && atMs < endMs) sum.rows += 1;
  }
}

const bySeries = ({ series }: Due): KnownSeries => series;

function hasWaitingBefore(series: KnownSeries, watermarkMs: number): boolean {
  return (series.waiting.sorted().atMs[0] ?? Number.POSITIVE_INFINITY) < watermarkMs;
}

export function weightOf({ rows, rollups }: { rows: number; rollups: number }): Weight {
  return { rows, bytes: Math.round(rows * bytesPerRow), rollupBytes: Math.round(rollups * bytesPerRollup) };
}

export function wholeStep(ms: number): number {
  return Math.max(0, Math.floor(ms / watermarkStepMs) * watermarkStepMs);
}
