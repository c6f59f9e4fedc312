/** The readings store as plainly as it can be said, to compare real ones with. */
import type { Quantity } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import { appended, type KeptReading, type ProbeName, type SeriesRef } from '../../../shared/store/readings-store.ts';

const stretchMs = 600_000;
const stepMs = 3 * 3_600_000;

export interface ModelBucket {
  startMs: number;
  min: number;
  mean: number;
  max: number;
  count: number;
}

export class ReadingsModel {
  /** Every reading that was ever taken, downsampled or not. */
  readonly #taken = new Map<string, Reading>();
  readonly #watermarks = new Map<string, number>();

  append(readings: readonly Reading[]): number[] {
    return readings.map((reading) => {
      if (reading.atMs < this.#horizonOf(reading)) return appended.beforeWatermark;
      const identity = [keyOf(reading), reading.atMs].join();
      const known = this.#taken.get(identity);
      if (known === undefined) this.#taken.set(identity, reading);
      if (known === undefined) return appended.new;
      return known.value === reading.value ? appended.duplicate : appended.conflict;
    });
  }

  downsample(beforeMs: number): void {
    for (const last of this.lasts()) {
      const newestEndMs = wholeStep(last.atMs) + stepMs;
      const watermarkMs = Math.min(wholeStep(beforeMs), newestEndMs);
      this.#watermarks.set(keyOf(last), Math.max(this.#horizonOf(last), watermarkMs));
    }
  }

  forget(probes: readonly ProbeName[]): void {
    const isGone = ({ site, probe }: ProbeName) => probes.some((one) => one.site === site && one.probe === probe);
    for (const [identity, reading] of this.#taken) {
      if (!isGone(reading)) continue;
      this.#taken.delete(identity);
      this.#watermarks.delete(keyOf(reading));
    }
  }

  #horizonOf(ref: SeriesRef): number {
    return this.#watermarks.get(keyOf(ref)) ?? 0;
  }

  rawFrom(series: readonly SeriesRef[]): number {
    return Math.max(0, ...series.map((ref) => this.#horizonOf(ref)));
  }

  get count(): number {
    return this.#raw().length;
  }

  rawCount(fromMs: number, toMs: number): number {
    const within = (atMs: number) => atMs >= wholeStep(fromMs) && atMs < wholeStep(toMs);
    return this.#raw().filter(({ atMs }) => within(atMs)).length;
  }

  #raw(): Reading[] {
    return [...this.#taken.values()].filter((reading) => reading.atMs >= this.#horizonOf(reading));
  }

  rows(series: readonly SeriesRef[], fromMs: number, toMs: number): KeptReading[] {
    return [...this.#raw(), ...this.#standIns()]
      .filter((reading) => reading.atMs >= fromMs && reading.atMs < toMs && series.some((ref) => isOf(reading, ref)))
      .sort((a, b) => a.atMs - b.atMs || indexIn(series, a) - indexIn(series, b));
  }

  #standIns(): KeptReading[] {
    const stretches = new Map<string, Reading[]>();
    for (const reading of this.#taken.values()) {
      if (reading.atMs >= this.#horizonOf(reading)) continue;
      const key = [keyOf(reading), Math.floor(reading.atMs / stretchMs)].join();
      stretches.set(key, [...(stretches.get(key) ?? []), reading]);
    }
    return Array.from(stretches.values(), (readings) => {
      const first = readings[0] as Reading;
      const values = readings.map(({ value }) => value);
      return {
        ...first,
        atMs: Math.floor(first.atMs / stretchMs) * stretchMs + stretchMs / 2,
        value: sumOf(values) / values.length,
        standsFor: { count: values.length, min: Math.min(...values), max: Math.max(...values) },
      };
    });
  }

  buckets(ref: SeriesRef, fromMs: number, toMs: number, bucketMs: number): ModelBucket[] {
    const groups = new Map<number, KeptReading[]>();
    for (const row of this.rows([ref], fromMs, toMs)) {
      const startMs = Math.floor(row.atMs / bucketMs) * bucketMs;
      groups.set(startMs, [...(groups.get(startMs) ?? []), row]);
    }
    return Array.from(groups, ([startMs, rows]) => {
      const counts = rows.map(({ standsFor }) => standsFor?.count ?? 1);
      return {
        startMs,
        min: Math.min(...rows.map(({ value, standsFor }) => standsFor?.min ?? value)),
        mean: sumOf(rows.map(({ value }, index) => value * (counts[index] ?? 1))) / sumOf(counts),
        max: Math.max(...rows.map(({ value, standsFor }) => standsFor?.max ?? value)),
        count: sumOf(counts),
      };
    });
  }

  lasts(): { site: string; probe: string; quantity: Quantity; firstAtMs: number; atMs: number; value: number }[] {
    const all = [...this.#taken.values()].sort((a, b) => a.atMs - b.atMs);
    const bySeries = new Map<string, Reading[]>();
    for (const reading of all) {
      const key = keyOf(reading);
      bySeries.set(key, [...(bySeries.get(key) ?? []), reading]);
    }
    return [...bySeries.values()].map((ofSeries) => {
      const [first, last] = [ofSeries[0] as Reading, ofSeries.at(-1) as Reading];
      return { ...last, firstAtMs: first.atMs };
    });
  }
}

function keyOf({ site, probe, quantity }: SeriesRef): string {
  return [site, probe, quantity].join();
}

function wholeStep(ms: number): number {
  return Math.floor(ms / stepMs) * stepMs;
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

export function isOf(reading: SeriesRef, ref: SeriesRef): boolean {
  return reading.site === ref.site && reading.probe === ref.probe && reading.quantity === ref.quantity;
}

function indexIn(series: readonly SeriesRef[], reading: Reading): number {
  return series.findIndex((ref) => isOf(reading, ref));
}
