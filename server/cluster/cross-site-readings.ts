/**
 * What probes of sites that another worker holds say to piles that are watched here.
 *
 * A probe may serve a pile of another site, when what it sends names the place of its gateway. Whoever holds that site
 * takes its readings in and keeps them; here they are read from the store once they are kept. It never takes anything
 * in: what is not kept is not heard.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import { pileQuantities } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ReadingsStore, SeriesRef } from '../../shared/store/readings-store.ts';
import { msPerDay } from '../../shared/units.ts';
import { sourceSeries } from '../pile/pile-sources.ts';
import type { OwnPile } from '../pile/watched-pile.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';

const everyMs = 2_000;
/** So many looks for what is new, then one for what came late. */
const looksToLate = 30;
const lateMs = msPerDay;
/** Clocks of probes run ahead a little. */
const aheadMs = 600_000;
const pageRows = 8_192;

export interface CrossSiteReadingsParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly readings: Pick<ReadingsStore, 'rows'>;
  readonly probes: Pick<ProbeBook, 'record'>;
  readonly watch: { all(): readonly OwnPile[] };
  isHeld(site: string): boolean;
}

export class CrossSiteReadings {
  readonly #parts: CrossSiteReadingsParts;
  /** Of each series followed: the times that were passed on already. */
  readonly #followed = new Map<string, Set<number>>();
  #lookedMs = 0;
  #timer: NodeJS.Timeout | undefined;
  #looking: Promise<void> = Promise.resolve();
  #looks = 0;
  #closed = false;
  #away = false;

  constructor(parts: CrossSiteReadingsParts) {
    this.#parts = parts;
  }

  start(): void {
    this.#next();
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    await this.#looking;
  }

  #next(): void {
    if (this.#closed) return;
    this.#timer = setTimeout(() => {
      this.#looking = this.fetch().finally(() => this.#next());
    }, everyMs);
  }

  /** The default session of this process took these in, as the site has no session of its own yet: they are heard already. Hot. */
  tookIn(readings: readonly Reading[]): void {
    if (this.#followed.size === 0) return;
    for (const reading of readings) this.#followed.get(nameOf(reading))?.add(reading.atMs);
  }

  /** Passes on what was kept since. */
  async fetch(): Promise<void> {
    const series = this.#crossSite();
    const names = new Set(series.map(nameOf));
    for (const name of this.#followed.keys()) if (!names.has(name)) this.#followed.delete(name);
    if (series.length === 0) return;
    const nowMs = this.#parts.clock.nowMs();
    const isNew = series.some((one) => !this.#followed.has(nameOf(one)));
    const forLate = isNew || this.#looks++ % looksToLate === 0;
    try {
      await this.#passOn(series, forLate ? nowMs - lateMs : this.#lookedMs - aheadMs, nowMs);
      this.#lookedMs = nowMs;
      this.#away = false;
    } catch (error) {
      if (!this.#away) {
        this.#parts.log.warn({ err: error }, 'what probes of other sites said could not be read; it is tried again');
      }
      this.#away = true;
      this.#looks = 0; // whatever was missed is late by then
    }
  }

  async #passOn(series: readonly SeriesRef[], fromMs: number, nowMs: number): Promise<void> {
    const { readings, probes } = this.#parts;
    const begun = new Map(series.map((one) => [nameOf(one), this.#followed.get(nameOf(one)) ?? new Set<number>()]));
    for (let nextMs = fromMs; !this.#closed; ) {
      const rows = await readings.rows(series, nextMs, nowMs + aheadMs, pageRows);
      const last = rows.at(-1);
      if (!last) break;
      for (const row of rows) {
        const name = nameOf(row);
        const times = begun.get(name);
        if (!times || times.has(row.atMs)) continue;
        times.add(row.atMs);
        // A pile read what was kept as it was taken; to hear the newest of that once more harms nothing.
        if (this.#followed.has(name) || row.atMs >= nowMs - aheadMs) probes.record(row);
      }
      nextMs = last.atMs + 1;
    }
    for (const [name, times] of begun) {
      for (const atMs of times) if (atMs < nowMs - lateMs) times.delete(atMs);
      this.#followed.set(name, times);
    }
  }

  #crossSite(): SeriesRef[] {
    const { watch, isHeld } = this.#parts;
    const crossSite = watch
      .all()
      .flatMap(({ sources }) => sources.filter(({ claim }) => claim.toMs === null && !isHeld(claim.site)));
    return sourceSeries(crossSite, pileQuantities);
  }
}

const nameOf = ({ site, probe, quantity }: SeriesRef) => `${site}/${probe}/${quantity}`;
