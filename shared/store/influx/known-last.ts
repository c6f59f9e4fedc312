/** What is known of every series without asking: its first and its newest reading. */
import type { Quantity } from '../../quantity.ts';
import { SeriesIndex } from '../readings/series-index.ts';
import type { SeriesRef } from '../readings-store.ts';
import { lineStart } from './line-protocol.ts';

export class KnownLast implements SeriesRef {
  firstAtMs = Number.POSITIVE_INFINITY;
  lastAtMs = Number.NEGATIVE_INFINITY;
  lastValue = Number.NaN;
  /** Before this only stand-ins are left; 0 when it was never downsampled. */
  watermarkMs = 0;
  /** Whether raw rows before the watermark may still have to go. */
  hasDownsampledRows = false;
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

export class KnownLasts extends SeriesIndex<KnownLast> {
  /** Sites whose series are known; undefined once all are. */
  #open: Set<string> | undefined = new Set();

  get openSites(): readonly string[] | undefined {
    return this.#open && [...this.#open];
  }

  /** @param sites undefined for all there are. */
  opened(sites: readonly string[] | undefined): void {
    if (sites === undefined) this.#open = undefined;
    else for (const site of sites) this.#open?.add(site);
  }

  /** Sites of these that were never asked for. Hot. */
  unopened(of: readonly { readonly site: string }[]): string[] {
    if (this.#open === undefined) return [];
    const unknown = new Set<string>();
    for (const { site } of of) if (!this.#open.has(site)) unknown.add(site);
    return [...unknown];
  }

  findOrAdd(site: string, probe: string, quantity: Quantity): KnownLast {
    const known = this.find(site, probe, quantity);
    if (known !== undefined) return known;
    const series = new KnownLast(site, probe, quantity);
    this.add(series);
    return series;
  }
}
