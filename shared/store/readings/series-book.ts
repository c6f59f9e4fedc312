/** Every series ever seen, in memory, found without building a key. */
import type { Quantity } from '../../quantity.ts';
import type { SeriesRef } from '../readings-store.ts';
import { Waiting } from './waiting.ts';

export class KnownSeries implements SeriesRef {
  /** Row of the `series` table; 0 until that row is written. */
  id = 0;
  firstAtMs = Number.POSITIVE_INFINITY;
  lastAtMs = Number.NEGATIVE_INFINITY;
  lastValue = Number.NaN;
  settledCount = 0;
  /** Newest time in the reading table; anything later can only be waiting. */
  settledLastAtMs = Number.NEGATIVE_INFINITY;
  waiting = new Waiting();
  /** Before this its raw rows are gone, or hidden until they are; 0 when it was never thinned. */
  horizonMs = 0;
  /** Whether raw rows before the horizon may still have to go. */
  hasThinnedRows = false;
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

type OfProbe = Map<Quantity, KnownSeries>;

export class SeriesBook {
  readonly #sites = new Map<string, Map<string, OfProbe>>();
  readonly #all: KnownSeries[] = [];
  // Quantities of one probe arrive together, so the probe found last is often the one asked for.
  #lastSite = '';
  #lastProbe: string | null = null;
  #lastFound: OfProbe | undefined;

  /** In the order of their ids. */
  get all(): readonly KnownSeries[] {
    return this.#all;
  }

  find(site: string, probe: string, quantity: Quantity): KnownSeries | undefined {
    if (probe !== this.#lastProbe || site !== this.#lastSite) {
      this.#lastFound = this.#sites.get(site)?.get(probe);
      this.#lastSite = site;
      this.#lastProbe = probe;
    }
    return this.#lastFound?.get(quantity);
  }

  add(series: KnownSeries): void {
    const ofSite = getOrMake(this.#sites, series.site, () => new Map<string, OfProbe>());
    getOrMake(ofSite, series.probe, () => new Map<Quantity, KnownSeries>()).set(series.quantity, series);
    this.#all.push(series);
    this.#lastProbe = null;
  }

  /** Forgets these. Whoever goes through `all` by place must begin anew. */
  remove(gone: ReadonlySet<KnownSeries>): void {
    for (const { site, probe, quantity } of gone) {
      const ofSite = this.#sites.get(site);
      const ofProbe = ofSite?.get(probe);
      ofProbe?.delete(quantity);
      if (ofProbe?.size === 0) ofSite?.delete(probe);
      if (ofSite?.size === 0) this.#sites.delete(site);
    }
    const left = this.#all.filter((series) => !gone.has(series));
    this.#all.length = 0;
    for (const series of left) this.#all.push(series);
    this.#lastProbe = null;
  }

  /** All that is known of one probe. */
  ofProbe(site: string, probe: string): KnownSeries[] {
    return [...(this.#sites.get(site)?.get(probe)?.values() ?? [])];
  }

  /** Forgets the series added last. */
  removeLast(): void {
    const series = this.#all.pop();
    if (series) this.#sites.get(series.site)?.get(series.probe)?.delete(series.quantity);
  }
}

export function getOrMake<Key, Value>(map: Map<Key, Value>, key: Key, make: () => Value): Value {
  let value = map.get(key);
  if (value === undefined) {
    value = make();
    map.set(key, value);
  }
  return value;
}
