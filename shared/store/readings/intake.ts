/**
 * Sorts a batch into new, known, in conflict and too late, in memory. It never writes. When writing fails afterwards,
 * `undo` puts everything back as it was.
 */
import type { Reading } from '../../reading.ts';
import { type AppendResult, appended } from '../readings-store.ts';
import { newColumns } from './inbox.ts';
import { KnownSeries, type SeriesBook } from './series-book.ts';
import { mustBeKeepable } from './whole-range.ts';

export type FlushedValue = (series: KnownSeries, atMs: number) => number | undefined;

export class Intake {
  readonly #book: SeriesBook;
  readonly #flushedValue: FlushedValue;
  #batch = 0;
  #touched: KnownSeries[] = [];
  /** Series seen for the first time; they need a row of their own before `pack`. */
  newSeries: KnownSeries[] = [];
  // The new readings of the batch, by column.
  #series: KnownSeries[] = [];
  #atMs: number[] = [];
  #values: number[] = [];

  constructor(book: SeriesBook, flushedValue: FlushedValue) {
    this.#book = book;
    this.#flushedValue = flushedValue;
  }

  /** @throws {RangeError} when a reading is not a finite number at a whole time; nothing is taken then. */
  take(readings: readonly Reading[]): AppendResult {
    this.#batch += 1;
    this.#touched = [];
    this.newSeries = [];
    this.#series = [];
    this.#atMs = [];
    this.#values = [];
    const outcomes = new Uint8Array(readings.length);
    let duplicateCount = 0;
    let beforeWatermarkCount = 0;
    try {
      for (let index = 0; index < readings.length; index += 1) {
        const outcome = this.#takeOne(readings[index] as Reading);
        outcomes[index] = outcome;
        if (outcome === appended.duplicate) duplicateCount += 1;
        else if (outcome === appended.beforeWatermark) beforeWatermarkCount += 1;
      }
    } catch (error) {
      this.undo();
      throw error;
    }
    const newCount = this.#series.length;
    const conflictCount = readings.length - newCount - duplicateCount - beforeWatermarkCount;
    return { outcomes, newCount, duplicateCount, conflictCount, beforeWatermarkCount };
  }

  #takeOne(reading: Reading): number {
    mustBeKeepable(reading);
    const { site, probe, quantity, atMs, value } = reading;
    const series = this.#book.find(site, probe, quantity) ?? this.#begin(new KnownSeries(site, probe, quantity));
    if (atMs < series.watermarkMs) return appended.beforeWatermark;
    if (atMs <= series.lastAtMs) {
      const known = atMs === series.lastAtMs ? series.lastValue : this.#earlierValue(series, atMs);
      if (known !== undefined) return known === value ? appended.duplicate : appended.conflict;
    }
    if (series.batch !== this.#batch) this.#remember(series);
    const kept = value + 0; // SQLite keeps no negative zero, so neither do we
    series.keep(atMs, kept);
    this.#series.push(series);
    this.#atMs.push(atMs);
    this.#values.push(kept);
    return appended.new;
  }

  #earlierValue(series: KnownSeries, atMs: number): number | undefined {
    const waiting = series.waiting.count > 0 ? series.waiting.valueAt(atMs) : undefined;
    if (waiting !== undefined || atMs > series.flushedLastAtMs) return waiting;
    return this.#flushedValue(series, atMs);
  }

  #begin(series: KnownSeries): KnownSeries {
    this.#book.add(series);
    this.newSeries.push(series);
    return series;
  }

  #remember(series: KnownSeries): void {
    series.batch = this.#batch;
    series.before.count = series.waiting.count;
    series.before.firstAtMs = series.firstAtMs;
    series.before.lastAtMs = series.lastAtMs;
    series.before.lastValue = series.lastValue;
    this.#touched.push(series);
  }

  /** The new readings as one inbox blob; every series has its id by now. */
  pack(): Buffer {
    const { atMs, values, seriesIds, packed } = newColumns(this.#series.length);
    atMs.set(this.#atMs);
    values.set(this.#values);
    for (let index = 0; index < this.#series.length; index += 1) {
      seriesIds[index] = (this.#series[index] as KnownSeries).id;
    }
    return packed;
  }

  /** As if the batch had never come. */
  undo(): void {
    for (const series of this.#touched) {
      series.waiting.cutTo(series.before.count);
      series.firstAtMs = series.before.firstAtMs;
      series.lastAtMs = series.before.lastAtMs;
      series.lastValue = series.before.lastValue;
    }
    for (const _ of this.newSeries) this.#book.removeLast();
    this.#touched = [];
    this.newSeries = [];
  }
}
