/** Every series ever seen, in memory, found without building a key. */
import type { Quantity } from '../../quantity.ts';
import type { SeriesRef } from '../readings-store.ts';
import { getOrMake } from './get-or-make.ts';

export class SeriesIndex<Series extends SeriesRef> {
  readonly #sites = new Map<string, Map<string, Map<Quantity, Series>>>();
  readonly #all: Series[] = [];
  // Quantities of one probe arrive together, so the probe found last is often the one asked for.
  #lastSite = '';
  #lastProbe: string | null = null;
  #lastFound: Map<Quantity, Series> | undefined;

  /** In the order in which they were added. */
  get all(): readonly Series[] {
    return this.#all;
  }

  find(site: string, probe: string, quantity: Quantity): Series | undefined {
    if (probe !== this.#lastProbe || site !== this.#lastSite) {
      this.#lastFound = this.#sites.get(site)?.get(probe);
      this.#lastSite = site;
      this.#lastProbe = probe;
    }
    return this.#lastFound?.get(quantity);
  }

  add(series: Series): void {
    const ofSite = getOrMake(this.#sites, series.site, () => new Map<string, Map<Quantity, Series>>());
    getOrMake(ofSite, series.probe, () => new Map<Quantity, Series>()).set(series.quantity, series);
    this.#all.push(series);
    this.#lastProbe = null;
  }

  /** All that is known of one probe. */
  ofProbe(site: string, probe: string): Series[] {
    return [...(this.#sites.get(site)?.get(probe)?.values() ?? [])];
  }

  /** Forgets these. Whoever goes through `all` by place must begin anew. */
  remove(gone: ReadonlySet<Series>): void {
    for (const series of gone) this.#unlink(series);
    const left = this.#all.filter((series) => !gone.has(series));
    this.#all.length = 0;
    for (const series of left) this.#all.push(series);
  }

  /** Forgets the series added last. */
  removeLast(): void {
    const series = this.#all.pop();
    if (series) this.#unlink(series);
  }

  #unlink({ site, probe, quantity }: Series): void {
    const ofSite = this.#sites.get(site);
    const ofProbe = ofSite?.get(probe);
    ofProbe?.delete(quantity);
    if (ofProbe?.size === 0) ofSite?.delete(probe);
    if (ofSite?.size === 0) this.#sites.delete(site);
    this.#lastProbe = null;
  }
}
