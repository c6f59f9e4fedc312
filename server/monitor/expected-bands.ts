import type { FastifyBaseLogger } from 'fastify';
import pLimit from 'p-limit';
import { isOtherIssue } from '../../core/expect/air-ahead.ts';
import type { ExpectedBand } from '../../core/expect/band.ts';
import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import type { Clock } from '../../shared/clock.ts';
import type { AirAheadRecord, Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { msPerDay } from '../../shared/units.ts';
import { checkpointReachMs } from '../pile/checkpoints.ts';
import type { BandKeeper } from './band-keeper.ts';
import { FinishedCurves } from './finished-curves.ts';
import { airBesidePile } from './measured-air.ts';
import type { MonitoredPile } from './monitored-pile.ts';

/** How far beyond now the expected band reaches. */
const aheadMs = 2 * msPerDay;
/** Asked for at the same time: each question carries weeks of air, so the others wait unasked. */
const atOnce = 2;

export interface ExpectedBandsParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly bands: BandKeeper;
}

/** Asks for expected bands beside the main thread. */
export class ExpectedBands {
  readonly #parts: ExpectedBandsParts;
  readonly #finished: FinishedCurves;
  readonly #few = pLimit(atOnce);
  /** As last made bands of, by site. */
  readonly #airAhead = new Map<string, AirAheadRecord['points']>();
  #closed = false;

  constructor(parts: ExpectedBandsParts) {
    this.#parts = parts;
    this.#finished = new FinishedCurves(parts.journal, parts.readings, parts.log);
  }

  /** What was written about batches has changed. */
  recordsChanged(): void {
    this.#finished.forget();
  }

  /** The next evaluation uses the band once it is there. */
  ask(pile: MonitoredPile): void {
    const { setup } = pile.watch;
    if (!setup) return;
    const nowMs = this.#parts.clock.nowMs();
    pile.bandAskedMs = nowMs;
    void this.#few(() => this.#compute(setup, pile, nowMs)).then(
      (band) => {
        pile.watch.band = band;
        pile.bandIsNew = true;
        pile.news = true;
      },
      (error) => {
        if (!this.#closed) this.#parts.log.warn({ err: error, pile: pile.pile.id }, 'no expected curve');
      },
    );
  }

  /** Something new is foretold of the air of these piles, all of one site: their bands are made anew where it changes them. */
  async airAheadIssued(siteId: string, piles: readonly MonitoredPile[]): Promise<void> {
    const next = await this.#parts.journal.airAhead.get(siteId);
    if (next) for (const { watch } of piles) watch.airAheadIssued(next);
    const before = this.#airAhead.get(siteId) ?? [];
    if (!next || !isOtherIssue(before, next.points, this.#parts.clock.nowMs())) return;
    this.#airAhead.set(siteId, next.points);
    for (const pile of piles) if (pile.begun) this.ask(pile);
  }

  /** Nothing that waits is asked any more. */
  close(): void {
    this.#closed = true;
    this.#few.clearQueue();
  }

  async #compute(
    setup: PileSetup,
    { judgedSources, standbys, watch }: MonitoredPile,
    nowMs: number,
  ): Promise<ExpectedBand> {
    const air = await airBesidePile(this.#parts.readings, judgedSources, standbys, setup.startedAtMs, nowMs);
    const { airAhead = null } = setup;
    const finished = await this.#finished.ofStage(setup.stage);
    const { guessedAirC } = watch;
    const forecastFromMs = nowMs - checkpointReachMs;
    const toMs = nowMs + aheadMs;
    return this.#parts.bands.compute({ setup, air, guessedAirC, airAhead, finished, toMs, nowMs, forecastFromMs });
  }
}
