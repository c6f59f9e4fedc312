/** What is known of every series without asking: its first and its newest reading. */
import type { Quantity } from '../../quantity.ts';
import { getOrMake } from '../readings/series-book.ts';
import type { SeriesRef } from '../readings-store.ts';
import { lineStart } from './line-protocol.ts';

export class KnownLast {
  firstAtMs = Number.POSITIVE_INFINITY;
  lastAtMs = Number.NEGATIVE_INFINITY;
  lastValue = Number.NaN;
  /** Before this only stand-ins are left; 0 when it was never thinned. */
  horizonMs = 0;
  /** Whether raw rows before the horizon may still have to go. */
  hasThinnedRows = false;
  /** As its note in the database says; see series-notes.ts. */
  notedFirstMs = Number.POSITIVE_INFINITY;
  notedNewestMs = Number.NEGATIVE_INFINITY;
  readonly lineStart: string;

  constructor(
    readonly site: string,
    readonly probe: string,
    readonly quantity: Quantity,
  ) {
    this.lineStart = lineStart(quantity, site, probe);
  }

  get ref(): SeriesRef {
    return { site: this.site, probe: this.probe, quantity: this.quantity };
  }

  learn(atMs: number, value: number): void {
    if (atMs > this.lastAtMs) {
      this.lastAtMs = atMs;
      this.lastValue = value;
    }
    if (atMs < this.firstAtMs) this.firstAtMs = atMs;
  }
}

type OfProbe = Map<Quantity, KnownLast>;

export class KnownLasts {
  readonly #sites = new Map<string, Map<string, OfProbe>>();
  readonly #all: KnownLast[] = [];
  // Quantities of one probe arrive together, so the probe found last is often the one asked for.
  #site = '';
  #probe: string | null = null;
  #found: OfProbe | undefined;

  /** In the order in which they came. */
  get all(): readonly KnownLast[] {
    return this.#all;
  }

  find(site: string, probe: string, quantity: Quantity): KnownLast | undefined {
    if (probe !== this.#probe || site !== this.#site) {
      this.#found = this.#sites.get(site)?.get(probe);
      this.#site = site;
      this.#probe = probe;
    }
    return this.#found?.get(quantity);
  }

  findOrAdd(site: string, probe: string, quantity: Quantity): KnownLast {
    const known = this.find(site, probe, quantity);
    if (known !== undefined) return known;
    const series = new KnownLast(site, probe, quantity);
    this.#add(series);
    return series;
  }

  ofProbe(site: string, probe: string): KnownLast[] {
    return [...(this.#sites.get(site)?.get(probe)?.values() ?? [])];
  }

  /** Forgets these. Whoever goes through `all` by place must begin anew. */
  remove(gone: ReadonlySet<KnownLast>): void {
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
    this.#probe = null;
  }

  #add(series: KnownLast): void {
    this.#all.push(series);
    const ofSite = getOrMake(this.#sites, series.site, () => new Map<string, OfProbe>());
    getOrMake(ofSite, series.probe, () => new Map<Quantity, KnownLast>()).set(series.quantity, series);
    this.#probe = null;
  }
}
