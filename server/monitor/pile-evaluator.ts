import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ChangeKeeper } from './change-keeper.ts';
import type { ExpectedBands } from './expected-bands.ts';
import type { MonitoredPile } from './monitored-pile.ts';
import type { SiteLeases } from './site-leases.ts';
import { bandIsDue } from './tick-schedule.ts';

export interface PileEvaluatorParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Pick<Journal, 'watch'>;
  readonly leases: SiteLeases;
  readonly bands: ExpectedBands;
  readonly changes: ChangeKeeper;
  /** Whether it was neither replaced nor given up meanwhile. */
  isCurrent(pile: MonitoredPile): boolean;
  show(pile: MonitoredPile): void;
}

/** Judges one pile: first through everything committed, then what came in since the time before. */
export class PileEvaluator {
  readonly #parts: PileEvaluatorParts;

  constructor(parts: PileEvaluatorParts) {
    this.#parts = parts;
  }

  /** Reads what is committed, from the journal's checkpoint or from the batch's start, and evaluates for the first time. */
  async begin(pile: MonitoredPile): Promise<void> {
    const { clock, journal, log, bands, isCurrent, show } = this.#parts;
    if (pile.begun || !isCurrent(pile)) return;
    const { id } = pile.pile;
    try {
      await pile.watch.resume(pile.isAnew ? undefined : await journal.watch.get(id), clock.nowMs());
    } catch (error) {
      if (pile.opening.failed(error, Date.now(), clock.nowMs())) {
        log.error({ err: error, pile: id }, 'a pile cannot be judged; it is tried again');
      }
      show(pile);
      return;
    }
    pile.begun = true;
    if (pile.opening.wentWell()) log.info({ pile: id }, 'a pile is judged again');
    bands.ask(pile);
    await this.evaluate(pile, true);
  }

  /** @throws {LostLeaseError} and what the judge throws; what cannot be kept is owed. */
  async evaluate(pile: MonitoredPile, keepCheckpoint: boolean): Promise<void> {
    const { clock, leases, bands, changes, isCurrent } = this.#parts;
    if (!isCurrent(pile)) return;
    const nowMs = clock.nowMs();
    pile.news = false;
    pile.evaluatedAtMs = Date.now();
    const mayKeep = pile.keeping.mayTry(Date.now());
    const listeningForMs = leases.listeningForMs(pile.pile.siteId, nowMs);
    const change = await pile.watch.evaluate(nowMs, keepCheckpoint && mayKeep, listeningForMs);
    await changes.keepOrOwe(pile, change);
    if (bandIsDue(pile, nowMs)) bands.ask(pile);
  }
}
