/**
 * tests/shared/store/readings-model.ts: the readings store as plainly as it can be said, to compare real ones with.
 */
import type { Quantity } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import { appended, type SeriesRef } from '../../../shared/store/readings-store.ts';

export interface ModelBucket {
  startMs: number;
  min: number;
  mean: number;
  max: number;
  count: number;
}

export class ReadingsModel {
  readonly #kept = new Map<string, Reading>();

  append(readings: readonly Reading[]): number[] {
    return readings.map((reading) => {
      const identity = [reading.site, reading.probe, reading.quantity, reading.atMs].join();
      const known = this.#kept.get(identity);
      if (known === undefined) this.#kept.set(identity, reading);
      if (known === undefined) return appended.new;
      return known.value === reading.value ? appended.duplicate : appended.conflict;
    });
  }

  get count(): number {
    return this.#kept.size;
  }

  rows(series: readonly SeriesRef[], fromMs: number, toMs: number): Reading[] {
    return [...this.#kept.values()]
      .filter((reading) => reading.atMs >= fromMs && reading.atMs < toMs && series.some((ref) => isOf(reading, ref)))
      .sort((a, b) => a.atMs - b.atMs || indexIn(series, a) - indexIn(series, b));
  }

  buckets(ref: SeriesRef, fromMs: number, toMs: number, bucketMs: number): ModelBucket[] {
    const groups = new Map<number, number[]>();
    for (const { atMs, value } of this.rows([ref], fromMs, toMs)) {
      const startMs = Math.floor(atMs / bucketMs) * bucketMs;
      groups.set(startMs, [...(groups.get(startMs) ?? []), value]);
    }
    return Array.from(groups, ([startMs, values]) => ({
      startMs,
      min: Math.min(...values),
      mean: values.reduce((sum, value) => sum + value, 0) / values.length,
      max: Math.max(...values),
      count: values.length,
    }));
  }

  lasts(): { site: string; probe: string; quantity: Quantity; firstAtMs: number; atMs: number; value: number }[] {
    const all = this.rows([...this.#kept.values()], 0, Number.POSITIVE_INFINITY);
    const bySeries = new Map<string, Reading[]>();
    for (const reading of all) {
      const key = [reading.site, reading.probe, reading.quantity].join();
      bySeries.set(key, [...(bySeries.get(key) ?? []), reading]);
    }
    return [...bySeries.values()].map((ofSeries) => {
      const [first, last] = [ofSeries[0] as Reading, ofSeries.at(-1) as Reading];
      return { ...last, firstAtMs: first.atMs };
    });
  }
}

export function isOf(reading: SeriesRef, ref: SeriesRef): boolean {
  return reading.site === ref.site && reading.probe === ref.probe && reading.quantity === ref.quantity;
}

function indexIn(series: readonly SeriesRef[], reading: Reading): number {
  return series.findIndex((ref) => isOf(reading, ref));
}
