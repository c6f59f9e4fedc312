/**
 * Moves the waiting readings of some series into the reading table and the rollups. It never counts a reading twice:
 * what waits was new when it was taken, and its series says through which batch it is flushed, so that the same batch,
 * still in the inbox after a crash, is not taken for waiting again.
 */
import type { Database, Statement } from 'better-sqlite3';
import type { KnownSeries } from './series-book.ts';
import { tierLengthsMs } from './tiers.ts';
import { Waiting } from './waiting.ts';

/** Rows per INSERT; more gains little, and each costs three parameters. */
const rowsPerInsert = 20;

export interface Flush {
  /** In the order of their ids, which is the order of the tables. */
  readonly series: readonly KnownSeries[];
  /** Number of the newest batch taken. */
  readonly throughBatch: number;
  /** Batches up to this one have nothing waiting any more and leave the inbox; 0 for none. */
  readonly doneThroughBatch: number;
}

export class Flusher {
  readonly #insertOne: Statement;
  readonly #insertMany: Statement;
  readonly #rollUp: Statement;
  readonly #noteSeries: Statement;
  readonly #emptyInbox: Statement;
  readonly #run: (flush: Flush) => void;

  constructor(db: Database) {
    this.#insertOne = db.prepare('INSERT INTO reading VALUES (?, ?, ?)');
    this.#insertMany = db.prepare(
      `INSERT INTO reading VALUES ${Array.from({ length: rowsPerInsert }, () => '(?, ?, ?)').join(', ')}`,
    );
    this.#rollUp = db.prepare(`
      INSERT INTO rollup VALUES (?, ?, ?, ?, ?, ?, ?)
      ON CONFLICT DO UPDATE SET n = n + excluded.n, min = min(min, excluded.min), max = max(max, excluded.max),
        sum = sum + excluded.sum`);
    this.#noteSeries = db.prepare(`
      UPDATE series SET first_at_ms = ?, last_at_ms = ?, last_value = ?, settled_count = ?, settled_through = ?
      WHERE id = ?`);
    this.#emptyInbox = db.prepare('DELETE FROM inbox WHERE batch <= ?');
    this.#run = db.transaction((flush: Flush) => {
      for (const series of flush.series) this.#flushOne(series, flush.throughBatch);
      if (flush.doneThroughBatch > 0) this.#emptyInbox.run(flush.doneThroughBatch);
    }).immediate;
  }

  /** All of it is flushed, or, when this throws, nothing. */
  flush(flush: Flush): void {
    this.#run(flush);
    for (const series of flush.series) {
      series.flushedCount += series.waiting.count;
      series.flushedLastAtMs = series.lastAtMs;
      series.waiting = new Waiting();
    }
  }

  #flushOne(series: KnownSeries, throughBatch: number): void {
    const { id, firstAtMs, lastAtMs, lastValue, flushedCount } = series;
    const { atMs, values } = series.waiting.sorted();
    this.#insertRows(id, atMs, values);
    for (const [tier, lengthMs] of tierLengthsMs.entries()) this.#addToTier(tier, lengthMs, id, atMs, values);
    this.#noteSeries.run(firstAtMs, lastAtMs, lastValue, flushedCount + atMs.length, throughBatch, id);
  }

  #insertRows(id: number, atMs: readonly number[], values: readonly number[]): void {
    let index = 0;
    const parameters = new Array<number>(3 * rowsPerInsert);
    while (index + rowsPerInsert <= atMs.length) {
      for (let at = 0; at < parameters.length; at += 3, index += 1) {
        parameters[at] = id;
        parameters[at + 1] = atMs[index] as number;
        parameters[at + 2] = values[index] as number;
      }
      this.#insertMany.run(parameters);
    }
    for (; index < atMs.length; index += 1) this.#insertOne.run(id, atMs[index], values[index]);
  }

  #addToTier(tier: number, lengthMs: number, id: number, atMs: readonly number[], values: readonly number[]): void {
    let index = 0;
    while (index < atMs.length) {
      const startMs = Math.floor((atMs[index] as number) / lengthMs) * lengthMs;
      const endMs = startMs + lengthMs;
      const first = index;
      let min = Number.POSITIVE_INFINITY;
      let max = Number.NEGATIVE_INFINITY;
      let sum = 0;
      for (; index < atMs.length && (atMs[index] as number) < endMs; index += 1) {
        const value = values[index] as number;
        if (value < min) min = value;
        if (value > max) max = value;
        sum += value;
      }
      this.#rollUp.run(tier, id, startMs, index - first, min, max, sum);
    }
  }
}
