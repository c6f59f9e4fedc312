import { storeError } from '../store-error.ts';
import type { Sweep } from './clean-up.ts';
import type { SeriesBook } from './series-book.ts';

// From one series or a hundred, pages are shared well enough at 32,768; beyond that 16 of each series come together.
const settleAtLeast = 32_768;
const settlePerSeries = 16;
const defaultSweepRows = 8_192;
/** While settling keeps failing, readings are still taken until so many times as many wait. */
const waitingLimitTimes = 8;

export interface SettlingBounds {
  /** So many readings may wait before they are swept into their tables; by default it grows with the series. */
  readonly settleAt?: number;
  /** So many readings a step of the sweep settles at least. */
  readonly sweepRows?: number;
}

interface SettlingOptions extends SettlingBounds {
  /** Of the file, as failures name it. */
  readonly path: string;
  readonly onFailure: () => void;
}

/** When what waits in the inbox is swept into its tables, a step with each batch. */
export class Settling {
  readonly #sweep: Sweep;
  readonly #book: SeriesBook;
  readonly #options: SettlingOptions;
  /** After a step that failed, the next waits until so many more readings came. */
  #noStepBelow = 0;

  constructor(sweep: Sweep, book: SeriesBook, options: SettlingOptions) {
    this.#sweep = sweep;
    this.#book = book;
    this.#options = options;
  }

  get settleAt(): number {
    return this.#options.settleAt ?? Math.max(settleAtLeast, settlePerSeries * this.#book.all.length);
  }

  /** More waits than may: something must be settled before more is taken. */
  get isFull(): boolean {
    return this.#sweep.count >= waitingLimitTimes * this.settleAt;
  }

  /** @throws {StoreError} when nothing could be settled. */
  step(newCount = 0): void {
    try {
      this.#sweep.step(Math.max(this.#options.sweepRows ?? defaultSweepRows, 2 * newCount));
      this.#noStepBelow = 0;
    } catch (cause) {
      this.#options.onFailure();
      this.#noStepBelow = this.#sweep.count + this.settleAt / 4;
      throw storeError(`settle some of ${this.#sweep.count} readings`, cause, this.#options.path);
    }
  }

  /** What waits is safe in the inbox, so a step may fail now and be taken when more has come. */
  stepOrLater(newCount: number): void {
    if (this.#sweep.count < this.#noStepBelow) return;
    try {
      this.step(newCount);
    } catch {
      // Whoever heard of the failure says it when asked.
    }
  }
}
