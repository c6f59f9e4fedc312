/**
 * Flushes all that waits, series by series, a little with each batch.
 *
 * The longer readings wait, the more of one series go into the same pages at once: with many series that is what
 * writing costs. One step for all of them would stop the server for as long as it took to gather them.
 */

import type { Flusher } from './flush.ts';
import type { KnownSeries, SeriesBook } from './series-book.ts';

/** A round over the book. What comes in meanwhile is flushed with its series, or waits for the next round. */
interface Round {
  /** Newest batch when the round began: at the end nothing of it, or of any before, waits any more. */
  readonly batch: number;
  /** Place in the book of the next series. */
  next: number;
}

export class FlushRounds {
  readonly #book: SeriesBook;
  readonly #flusher: Flusher;
  #round: Round | null = null;
  /** Readings that wait. */
  count = 0;
  /** Number of the newest batch ever put into the inbox. */
  newestBatch = 0;
  /** Batches up to this one have left the inbox. */
  doneThroughBatch = 0;

  constructor(book: SeriesBook, flusher: Flusher) {
    this.#book = book;
    this.#flusher = flusher;
  }

  /** In the middle of a round. */
  get underWay(): boolean {
    return this.#round !== null;
  }

  /** Flushes at least `rows` readings, or all to the end of the round. When it throws, all of them still wait. */
  step(rows: number): void {
    const round = this.#round ?? { batch: this.newestBatch, next: 0 };
    const series = [];
    let coalesced = 0;
    let next = round.next;
    for (; next < this.#book.all.length && coalesced < rows; next += 1) {
      const one = this.#book.all[next];
      if (one === undefined || one.waiting.count === 0) continue;
      series.push(one);
      coalesced += one.waiting.count;
    }
    const ends = next >= this.#book.all.length;
    const doneThroughBatch = ends ? round.batch : 0;
    this.#flusher.flush({ series, throughBatch: this.newestBatch, doneThroughBatch });
    this.count -= coalesced;
    if (ends) this.doneThroughBatch = round.batch;
    this.#round = ends ? null : { batch: round.batch, next };
  }

  /** Flushes some series out of their turn. When it throws, all of them still wait. */
  flushSome(series: readonly KnownSeries[]): void {
    if (series.length === 0) return;
    const count = series.reduce((sum, { waiting }) => sum + waiting.count, 0);
    this.#flusher.flush({ series, throughBatch: this.newestBatch, doneThroughBatch: 0 });
    this.count -= count;
  }

  /** Flushes everything at once and empties the inbox. */
  finish(): void {
    if (this.doneThroughBatch === this.newestBatch) return;
    this.#round = null;
    this.step(Number.POSITIVE_INFINITY);
  }
}
