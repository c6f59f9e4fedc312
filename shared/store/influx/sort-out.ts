/**
 * Tells new readings from known ones and from those too late, and asks the database only where it must.
 *
 * What is newer than the newest of its series is new without asking. A reading of a write that failed may have been
 * kept all the same; when it comes again it is still new to the server, which never heard of it, and is written again.
 */
import type { Reading } from '../../reading.ts';
import { getOrMake } from '../readings/get-or-make.ts';
import { Waiting } from '../readings/waiting.ts';
import { mustBeKeepable } from '../readings/whole-range.ts';
import { type AppendResult, appended } from '../readings-store.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { latestInfluxMs } from './line-protocol.ts';
import { noteLagMs, noteLine } from './series-notes.ts';

/** What the database has of each series, by time. */
export type FoundValues = ReadonlyMap<KnownLast, ReadonlyMap<number, number>>;

/** So many readings of failed writes are remembered; beyond it the oldest failures are forgotten and may count as known. */
const uncertainLimit = 200_000;

export class SortOut {
  readonly #lasts: KnownLasts;
  #series: KnownLast[] = [];
  /** Per series the new ones of the batch. */
  #pending = new Map<KnownLast, Waiting>();
  #noted: { series: KnownLast; firstAtMs: number; lastAtMs: number }[] = [];
  readonly #uncertain = new Map<KnownLast, Set<number>>();
  #uncertainCount = 0;

  constructor(lasts: KnownLasts) {
    this.#lasts = lasts;
  }

  /**
   * Finds the series of a batch, and the times at which the database must be asked.
   * @throws {RangeError} when a reading cannot be kept.
   */
  begin(readings: readonly Reading[]): Map<KnownLast, number[]> {
    for (const reading of readings) mustBeKeepable(reading, latestInfluxMs);
    this.#series = new Array<KnownLast>(readings.length);
    this.#pending = new Map();
    const late = new Map<KnownLast, number[]>();
    for (let index = 0; index < readings.length; index += 1) {
      const { site, probe, quantity, atMs } = readings[index] as Reading;
      const series = this.#lasts.findOrAdd(site, probe, quantity);
      this.#series[index] = series;
      if (atMs >= series.lastAtMs || atMs < series.watermarkMs) continue;
      const times = late.get(series);
      if (times) times.push(atMs);
      else late.set(series, [atMs]);
    }
    return late;
  }

  finish(readings: readonly Reading[], found: FoundValues): { result: AppendResult; lines: string } {
    const outcomes = new Uint8Array(readings.length);
    const count = { [appended.new]: 0, [appended.duplicate]: 0, [appended.conflict]: 0, [appended.beforeWatermark]: 0 };
    let lines = '';
    for (let index = 0; index < readings.length; index += 1) {
      const { atMs, value } = readings[index] as Reading;
      const series = this.#series[index] as KnownLast;
      const outcome = this.#outcome(series, atMs, value, found);
      outcomes[index] = outcome;
      count[outcome] += 1;
      if (outcome !== appended.new) continue;
      this.#take(series, atMs, value + 0); // no negative zero, as in the embedded store
      lines += `${lines === '' ? '' : '\n'}${series.lineStart}${value} ${atMs}`;
    }
    return {
      lines: lines + this.#notes(),
      result: {
        outcomes,
        newCount: count[appended.new],
        duplicateCount: count[appended.duplicate],
        conflictCount: count[appended.conflict],
        beforeWatermarkCount: count[appended.beforeWatermark],
      },
    };
  }

  /** Of series that begin, begin earlier, or went on for long since their last note. */
  #notes(): string {
    let lines = '';
    this.#noted = [];
    for (const [series, pending] of this.#pending) {
      let { firstAtMs, lastAtMs, lastValue } = series;
      for (const [atMs, value] of pending.all()) {
        if (atMs < firstAtMs) firstAtMs = atMs;
        if (atMs > lastAtMs) [lastAtMs, lastValue] = [atMs, value];
      }
      if (firstAtMs >= series.notedFirstMs && lastAtMs < series.notedNewestMs + noteLagMs) continue;
      lines += `\n${noteLine(series, firstAtMs, lastAtMs, lastValue)}`;
      this.#noted.push({ series, firstAtMs, lastAtMs });
    }
    return lines;
  }

  #outcome(series: KnownLast, atMs: number, value: number, found: FoundValues): 1 | 2 | 3 | 4 {
    if (atMs < series.watermarkMs) return appended.beforeWatermark;
    const pending = this.#pending.get(series)?.valueAt(atMs);
    if (pending !== undefined) return pending === value ? appended.duplicate : appended.conflict;
    if (atMs > series.lastAtMs) return appended.new;
    const known = atMs === series.lastAtMs ? series.lastValue : found.get(series)?.get(atMs);
    if (known === undefined) return appended.new;
    if (known !== value) return appended.conflict;
    return this.#uncertain.get(series)?.has(atMs) ? appended.new : appended.duplicate;
  }

  #take(series: KnownLast, atMs: number, value: number): void {
    getOrMake(this.#pending, series, () => new Waiting()).add(atMs, value, true);
  }

  /** These are gone: nothing that failed of them is waited for. */
  drop(series: Iterable<KnownLast>): void {
    for (const one of series) {
      this.#uncertainCount -= this.#uncertain.get(one)?.size ?? 0;
      this.#uncertain.delete(one);
    }
  }

  /** The database has taken the lines. */
  kept(): void {
    for (const { series, firstAtMs, lastAtMs } of this.#noted) {
      series.notedFirstMs = Math.min(series.notedFirstMs, firstAtMs);
      series.notedNewestMs = lastAtMs;
    }
    for (const [series, pending] of this.#pending) {
      const uncertain = this.#uncertain.get(series);
      for (const [atMs, value] of pending.all()) {
        series.learn(atMs, value);
        if (uncertain?.delete(atMs)) this.#uncertainCount -= 1;
      }
      if (uncertain?.size === 0) this.#uncertain.delete(series);
    }
    this.#pending = new Map();
  }

  /** It may have taken some of the lines, or all, or none. */
  failed(): void {
    if (this.#uncertainCount > uncertainLimit) {
      this.#uncertain.clear();
      this.#uncertainCount = 0;
    }
    for (const [series, pending] of this.#pending) {
      const uncertain = getOrMake(this.#uncertain, series, () => new Set<number>());
      this.#uncertainCount -= uncertain.size;
      for (const [atMs] of pending.all()) uncertain.add(atMs);
      this.#uncertainCount += uncertain.size;
    }
    this.#pending = new Map();
  }
}
