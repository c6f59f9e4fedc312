/** What the embedded store keeps in memory of its series. */
import type { Quantity } from '../../quantity.ts';
import type { SeriesRef } from '../readings-store.ts';
import { SeriesIndex } from './series-index.ts';
import { Waiting } from './waiting.ts';

export class KnownSeries implements SeriesRef {
  /** Row of the `series` table; 0 until that row is written. */
  id = 0;
  firstAtMs = Number.POSITIVE_INFINITY;
  lastAtMs = Number.NEGATIVE_INFINITY;
  lastValue = Number.NaN;
  flushedCount = 0;
  /** Newest time in the reading table; anything later can only be waiting. */
  flushedLastAtMs = Number.NEGATIVE_INFINITY;
  waiting = new Waiting();
  /** Before this its raw rows are gone, or hidden until they are; 0 when it was never downsampled. */
  watermarkMs = 0;
  /** Whether raw rows before the watermark may still have to go. */
  hasDownsampledRows = false;
  /** The batch that touched it last, and how it stood before; see intake.ts. */
  batch = 0;
  before = { count: 0, firstAtMs: 0, lastAtMs: 0, lastValue: 0 };

  constructor(
    readonly site: string,
    readonly probe: string,
    readonly quantity: Quantity,
  ) {}

  /** Takes a reading whose time is new to the series; it waits from now on. */
  keep(atMs: number, value: number): void {
    const newest = atMs > this.lastAtMs;
    this.waiting.add(atMs, value, newest);
    if (newest) {
      this.lastAtMs = atMs;
      this.lastValue = value;
    }
    if (atMs < this.firstAtMs) this.firstAtMs = atMs;
  }
}

/** In the order of their ids. */
export class SeriesBook extends SeriesIndex<KnownSeries> {}
