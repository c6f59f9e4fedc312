import { storeError } from '../store-error.ts';
import type { FlushRounds } from './flush-rounds.ts';
import type { SeriesBook } from './series-book.ts';

// From one series or a hundred, pages are shared well enough at 32,768; beyond that 16 of each series come together.
const flushAtLeast = 32_768;
const flushPerSeries = 16;
const defaultFlushRows = 8_192;
/** While flushing keeps failing, readings are still taken until so many times as many wait. */
const waitingLimitTimes = 8;

export interface FlushBounds {
  /** So many readings may wait before they are flushed into their tables; by default it grows with the series. */
  readonly flushAt?: number;
  /** So many readings a step of a round flushes at least. */
  readonly flushRows?: number;
}

interface FlushOptions extends FlushBounds {
  /** Of the file, as failures name it. */
  readonly path: string;
  readonly onFailure: () => void;
}

/** When what waits in the inbox is flushed into its tables, a step with each batch. */
export class FlushSchedule {
  readonly #rounds: FlushRounds;
  readonly #book: SeriesBook;
  readonly #options: FlushOptions;
  /** After a step that failed, the next waits until so many more readings came. */
  #noStepBelow = 0;

  constructor(rounds: FlushRounds, book: SeriesBook, options: FlushOptions) {
    this.#rounds = rounds;
    this.#book = book;
    this.#options = options;
  }

  get flushAt(): number {
    return this.#options.flushAt ?? Math.max(flushAtLeast, flushPerSeries * this.#book.all.length);
  }

  /** More waits than may: something must be flushed before more is taken. */
  get isFull(): boolean {
    return this.#rounds.count >= waitingLimitTimes * this.flushAt;
  }

  /** @throws {StoreError} when nothing could be flushed. */
  step(newCount = 0): void {
    try {
      this.#rounds.step(Math.max(this.#options.flushRows ?? defaultFlushRows, 2 * newCount));
      this.#noStepBelow = 0;
    } catch (cause) {
      this.#options.onFailure();
      this.#noStepBelow = this.#rounds.count + this.flushAt / 4;
      throw storeError(`flush some of ${this.#rounds.count} readings`, cause, this.#options.path);
    }
  }

  /** What waits is safe in the inbox, so a step may fail now and be taken when more has come. */
  stepOrLater(newCount: number): void {
    if (this.#rounds.count < this.#noStepBelow) return;
    try {
      this.step(newCount);
    } catch {
      // Whoever heard of the failure says it when asked.
    }
  }
}
