import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { ClaimRecord, Journal, PileRecord } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { Failing } from '../pile/failing.ts';
import { openPile, type PileRecords, unjudgedPile } from '../pile/open-pile.ts';
import {
  type MonitoredPile,
  type MonitoredPileParts,
  type MonitoredPileStart,
  monitoredPile,
} from './monitored-pile.ts';
import { readPileRecords, readRecordsOfPiles } from './read-pile-records.ts';

export interface PileOpenerParts extends MonitoredPileParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
}

type ClaimsOfSite = ReadonlyMap<string, readonly ClaimRecord[]>;

/**
 * Opens watches over piles from what the journal holds of them. What cannot be opened is a pile of the monitor too, shown with
 * what stands in its way, and tried again.
 */
export class PileOpener {
  readonly #parts: PileOpenerParts;

  constructor(parts: PileOpenerParts) {
    this.#parts = parts;
  }

  /** @throws {StoreError} the journal cannot be read at all. */
  async openAll(piles: readonly PileRecord[]): Promise<{ opened: MonitoredPile[]; claimsOfSite: ClaimsOfSite }> {
    const { records, claimsOfSite } = await readRecordsOfPiles(this.#parts.journal, piles);
    const opened: MonitoredPile[] = [];
    for (const one of records) opened.push(await this.#open(one, { opening: new Failing(), isAnew: false }));
    return { opened, claimsOfSite };
  }

  /** What the pile owed, its waiting holds and its band go on, as far as they still hold. @throws {StoreError} */
  async openAnew(
    pile: PileRecord,
    before: MonitoredPile | undefined,
  ): Promise<{ opened: MonitoredPile; claimsOfSite: ClaimsOfSite }> {
    const { opening = new Failing(), owed } = before ?? {};
    const records = await readPileRecords(this.#parts.journal, pile, owed);
    const opened = await this.#open(records, { opening, isAnew: true, owed });
    if (before && before.batch?.id === opened.batch?.id) {
      opened.watch.band = before.watch.band; // until the new one is computed
      opened.watch.registry.restoreWaiting(before.watch.registry.waiting());
    }
    return { opened, claimsOfSite: new Map([[pile.siteId, records.claims]]) };
  }

  async #open(records: PileRecords, start: Omit<MonitoredPileStart, 'isOpen'>): Promise<MonitoredPile> {
    const { clock, log, journal, readings } = this.#parts;
    const nowMs = clock.nowMs();
    try {
      const opened = await openPile({ journal, readings, nowMs }, records);
      return monitoredPile(this.#parts, opened, { ...start, isOpen: true });
    } catch (error) {
      if (start.opening.failed(error, Date.now(), nowMs)) {
        log.error({ err: error, pile: records.pile.id }, 'a pile cannot be opened; it is tried again');
      }
      return monitoredPile(this.#parts, unjudgedPile(records, nowMs), { ...start, isOpen: false });
    }
  }
}
