import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import { LostLeaseError, StoreError } from '../../shared/errors.ts';
import type { Journal, Lease, PileRecord, WatchChange } from '../../shared/store/journal.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';
import { randomId } from '../id-from-name.ts';
import { alarmNotices, type SiteSilenceSeen } from '../pile/alarm-notices.ts';
import { isEmpty, nothingOwed, together } from '../pile/unkept.ts';
import type { MonitoredPile } from './monitored-pile.ts';

export interface ChangeKeeperParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Pick<Journal, 'watch'>;
  /** Under which a site's changes are written; `none` where the site is another's, so that nothing of it may be. */
  leaseOf(site: string): Lease | undefined | 'none';
  /** The journal refused what was written under this lease. */
  lost(lease: Lease): void;
  silenceOf(site: string): SiteSilenceSeen;
  show(pile: MonitoredPile, alarmsChanged: boolean): void;
  /** Alarms changed, and that is kept; what there is to notify stands in the outbox. */
  onAlarms(pile: PileRecord, change: WatchChange): void;
  /** Alarms changed and that cannot be kept, try after try. */
  onUnkept(notices: readonly NoticeRecord[]): void;
}

/**
 * Keeps what a pile does, its alarms and the notices about them in one transaction. What the journal refuses is owed and goes
 * with the next change.
 */
export class ChangeKeeper {
  readonly #parts: ChangeKeeperParts;

  constructor(parts: ChangeKeeperParts) {
    this.#parts = parts;
  }

  /** What cannot be kept is owed; judging goes on all the same. @throws {LostLeaseError} */
  async keepOrOwe(pile: MonitoredPile, change: WatchChange): Promise<void> {
    try {
      await this.keep(pile, change);
    } catch (error) {
      if (!(error instanceof StoreError)) throw error; // said already
    }
  }

  /** What is owed of a pile would be forgotten when it is read anew. */
  async keepOwed(pile: MonitoredPile): Promise<void> {
    if (!isEmpty(pile.owed)) await this.keepOrOwe(pile, nothingOwed);
  }

  /** @throws {StoreError} when it could not be kept; then it is owed. */
  async keep(pile: MonitoredPile, change: WatchChange): Promise<void> {
    const lease = this.#parts.leaseOf(pile.pile.siteId);
    if (lease === 'none') return;
    const all = together(pile.owed, { ...change, notices: this.#noticesOf(pile, change) });
    const mayTry = change.alarms.length > 0 || pile.keeping.mayTry(Date.now());
    if (!isEmpty(all) && mayTry) await this.#write(pile, all, lease);
    this.#parts.show(pile, all.alarms.length > 0);
  }

  async #write(pile: MonitoredPile, change: WatchChange, lease: Lease | undefined): Promise<void> {
    const { journal, log } = this.#parts;
    // A checkpoint is only good for its moment: a later one is kept instead.
    pile.owed = { ...change, watch: null };
    try {
      await journal.watch.keep({ ...change, lease });
    } catch (error) {
      if (error instanceof LostLeaseError) {
        if (lease) this.#parts.lost(lease);
        throw error;
      }
      this.#failed(pile, change, error);
      throw error;
    }
    pile.owed = nothingOwed;
    if (change.watch) {
      pile.checkpointDue = false;
      pile.keptAtMs = Date.now();
    }
    if (pile.keeping.wentWell()) log.info({ pile: pile.pile.id }, 'what a pile does is kept again');
    if (change.alarms.length > 0) this.#parts.onAlarms(pile.pile, change);
  }

  #failed(pile: MonitoredPile, { watch }: WatchChange, error: unknown): void {
    const { log, clock } = this.#parts;
    if (watch) {
      pile.checkpointDue = true;
      pile.watch.placeWasNotKept();
    }
    if (pile.keeping.failed(error, Date.now(), clock.nowMs())) {
      log.error({ err: error, pile: pile.pile.id }, 'what a pile does cannot be kept; it is tried again');
    }
    const { notices = [] } = pile.owed;
    if (pile.keeping.stands && notices.length > 0) this.#parts.onUnkept(notices);
    this.#parts.show(pile, false);
  }

  #noticesOf({ pile, watch }: MonitoredPile, change: WatchChange): NoticeRecord[] {
    if (change.steps.length === 0) return [];
    const suppressed = new Set([...watch.registry.open()].flatMap((one) => (one.suppressedBy ? [one.record.id] : [])));
    return alarmNotices(change, pile, {
      isSuppressed: (id) => suppressed.has(id),
      silence: () => this.#parts.silenceOf(pile.siteId),
      newId: randomId,
    });
  }
}
