/**
 * All piles being watched, each by one watch. What is done with one pile is done in its own queue, so no pile waits for
 * another and none is evaluated twice at the same time.
 */
import { setImmediate as turnOfOthers } from 'node:timers/promises';
import type { AlarmHandling } from '../../core/session/alarm-registry.ts';
import { LostLeaseError } from '../../shared/errors.ts';
import type { AlarmRecord, Lease, PileRecord } from '../../shared/store/journal.ts';
import type { SiteSilenceSeen } from '../pile/alarm-notices.ts';
import type { PilePort, TroubledPile } from '../pile/pile-port.ts';
import type { TroubleSeen } from '../pile/trouble-seen.ts';
import type { OwnPile } from '../pile/watched-pile.ts';
import { ChangeKeeper } from './change-keeper.ts';
import { jumpDetector } from './clock-jump.ts';
import { EvaluationRounds } from './evaluation-rounds.ts';
import { ExpectedBands } from './expected-bands.ts';
import { evaluateAnew, type MonitoredPile } from './monitored-pile.ts';
import { PileEvaluator } from './pile-evaluator.ts';
import type { PileMonitorParts } from './pile-monitor-parts.ts';
import { PileOpener } from './pile-opener.ts';
import { PileQueues } from './pile-queues.ts';
import { PileRegistry } from './pile-registry.ts';
import { type ShowPileParts, showPile } from './show-pile.ts';
import { SiteLeases } from './site-leases.ts';
import { siteSilenceOf } from './site-silence-of.ts';
import { checkpointIsDue, isDue } from './tick-schedule.ts';
import { troubleOf } from './trouble-of.ts';
import { waitAtMost } from './wait-at-most.ts';

/** Piles begun at a start before signals and timers get their turn. */
const beginAtATime = 16;
/** A start waits so long for one pile; it is then begun beside the others. */
const beginPatienceMs = 10_000;

export class PileMonitor implements PilePort {
  readonly #parts: PileMonitorParts;
  readonly #piles: PileRegistry;
  readonly #queues = new PileQueues();
  readonly #leases: SiteLeases;
  readonly #opener: PileOpener;
  readonly #showing: ShowPileParts;
  readonly #changes: ChangeKeeper;
  readonly #bands: ExpectedBands;
  readonly #evaluator: PileEvaluator;
  readonly #rounds: EvaluationRounds<MonitoredPile>;

  private constructor(parts: PileMonitorParts) {
    const { clock, probes } = parts;
    this.#parts = parts;
    this.#piles = new PileRegistry(probes);
    this.#leases = new SiteLeases(clock.nowMs());
    this.#showing = { ...parts, leases: this.#leases };
    this.#opener = new PileOpener({
      ...parts,
      latest: (id) => this.#piles.get(id),
      troubleOf: (pile) => this.#troubleOf(pile),
    });
    this.#bands = new ExpectedBands(parts);
    this.#changes = this.#changeKeeper();
    this.#evaluator = new PileEvaluator({
      ...parts,
      leases: this.#leases,
      bands: this.#bands,
      changes: this.#changes,
      isCurrent: (pile) => this.#piles.isCurrent(pile),
      show: (pile) => this.#show(pile, false),
    });
    const jumpMs = jumpDetector(clock);
    this.#rounds = new EvaluationRounds({
      piles: () => this.#piles.all(),
      beforeRound: () => this.#followClock(jumpMs()),
      isDue: (pile) => isDue(pile, this.#piles.size, Date.now()),
      evaluate: (pile) => this.#tryToEvaluate(pile),
    });
  }

  #changeKeeper(): ChangeKeeper {
    const { shared, whole, onAlarms, onUnkept } = this.#parts;
    return new ChangeKeeper({
      ...this.#parts,
      leaseOf: (site) => this.#leases.of(site) ?? whole?.lease ?? (shared ? 'none' : undefined),
      lost(lease) {
        shared?.lost(lease);
        whole?.lost();
      },
      silenceOf: (site) => this.silenceOf(site),
      show: (pile, alarmsChanged) => this.#show(pile, alarmsChanged),
      onAlarms: (pile, change) => onAlarms?.(pile, change),
      onUnkept: (notices) => onUnkept?.(notices),
    });
  }

  /** Loads every pile and goes on where each was left. */
  static async open(parts: PileMonitorParts): Promise<PileMonitor> {
    const monitor = new PileMonitor(parts);
    if (!parts.shared) await monitor.#load(await parts.journal.piles.list());
    monitor.#rounds.start();
    return monitor;
  }

  /** Watches sites from now on, from where the workers before left them. @throws {StoreError} */
  async take(leases: readonly Lease[]): Promise<void> {
    this.#leases.take(leases, this.#parts.clock.nowMs());
    const sites = new Set(leases.map(({ site }) => site));
    await this.#load((await this.#parts.journal.piles.list()).filter(({ siteId }) => sites.has(siteId)));
  }

  /** Watches a site no more. @param keep Whether it is still ours, so that what came in last is judged and kept. */
  async leave(site: string, keep: boolean): Promise<void> {
    const own = this.#piles.ofSite(site);
    if (keep) await Promise.all(own.map((pile) => this.#evaluateOnceMore(pile)));
    this.#leases.leave(site);
    this.#piles.remove(own);
  }

  async #load(piles: readonly PileRecord[]): Promise<void> {
    const { opened, claimsOfSite } = await this.#opener.openAll(piles);
    this.#piles.add(opened, claimsOfSite);
    let begun = 0;
    for (const pile of opened) {
      if (pile.isOpen) await waitAtMost(this.#tryToEvaluate(pile), beginPatienceMs);
      if (++begun % beginAtATime === 0) await turnOfOthers();
    }
  }

  all(): OwnPile[] {
    return [...this.#piles.all()];
  }

  get(pileId: string): OwnPile | undefined {
    return this.#piles.get(pileId);
  }

  /** Reads a pile's records anew after its claims, acts, batch or name changed, and judges its batch from the start. */
  reload(pileId: string): Promise<OwnPile | undefined> {
    return this.#queues.run(pileId, async () => {
      const { journal, hub, shared } = this.#parts;
      const before = this.#piles.get(pileId);
      if (before) await this.#changes.keepOwed(before);
      this.#bands.recordsChanged();
      const pile = await journal.piles.get(pileId);
      if (!pile) {
        if (before) this.#remove(before);
        hub.publish('pile-gone', pileId, { id: pileId });
        return undefined;
      }
      if (shared && !this.#leases.of(pile.siteId)) return undefined; // another worker's
      const { opened, claimsOfSite } = await this.#opener.openAnew(pile, before);
      // Its readings are heard from here on; the judge then reads everything that is committed already.
      this.#piles.add([opened], claimsOfSite);
      if (opened.isOpen) await this.#evaluator.begin(opened);
      else this.#show(opened, false);
      for (const other of this.#piles.neighboursWithOtherSources(opened)) this.#reloadBeside(other);
      return opened;
    });
  }

  #remove(pile: MonitoredPile): void {
    this.#piles.remove([pile]);
    this.#parts.onGone?.(pile.pile);
  }

  #reloadBeside({ pile }: MonitoredPile): void {
    this.reload(pile.id).catch((error) => {
      this.#parts.log.error({ err: error, pile: pile.id }, 'a pile could not be read anew');
    });
  }

  /** Something new is foretold of the air of a site. */
  async airAheadIssued(siteId: string): Promise<void> {
    await this.#bands.airAheadIssued(siteId, this.#piles.ofSite(siteId));
  }

  /** Nothing is left to do: each was heard as it was kept, and a late one sends its watch back. */
  async broughtIn(): Promise<void> {}

  async handleAlarm(alarmId: string, handling: AlarmHandling): Promise<boolean> {
    const pile = this.#piles.withAlarm(alarmId);
    if (!pile) return false;
    return this.#queues.run(pile.pile.id, async () => {
      const change = pile.watch.handle(alarmId, handling, this.#parts.clock.nowMs());
      if (!change) return false;
      await this.#changes.keep(pile, { ...change, watch: null });
      return true;
    });
  }

  async closeAlarms(pileId: string): Promise<void> {
    const pile = this.#piles.get(pileId);
    if (!pile) return;
    await this.#queues.run(pileId, () =>
      this.#changes.keep(pile, { ...pile.watch.registry.closeAll(this.#parts.clock.nowMs()), watch: null }),
    );
  }

  /** Judges what came in last and keeps every pile's checkpoint. */
  async close(): Promise<void> {
    this.#rounds.close();
    this.#bands.close();
    await Promise.all([...this.#piles.all()].map((pile) => this.#evaluateOnceMore(pile)));
  }

  /** What came in last is judged and kept as far as it can be; a pile that cannot be does not keep the others from it. */
  async #evaluateOnceMore(pile: MonitoredPile): Promise<void> {
    if (!pile.begun) return;
    const { id } = pile.pile;
    await this.#queues
      .run(id, () => this.#evaluator.evaluate(pile, true))
      .catch((error) => {
        this.#parts.log.error({ err: error, pile: id }, 'what a pile did last could not be kept');
      });
  }

  /** Never rejects: what goes wrong with one pile is said, and tried again by itself. */
  async #tryToEvaluate(pile: MonitoredPile): Promise<void> {
    const { clock, log } = this.#parts;
    const { id } = pile.pile;
    const keepCheckpoint = () => checkpointIsDue(pile, this.#piles.size, Date.now());
    try {
      if (!pile.isOpen) await this.reload(id);
      else if (!pile.begun) await this.#queues.run(id, () => this.#evaluator.begin(pile));
      else await this.#queues.run(id, () => this.#evaluator.evaluate(pile, keepCheckpoint()));
      if (pile.evaluating.wentWell()) log.info({ pile: id }, 'a pile is judged again');
    } catch (error) {
      if (error instanceof LostLeaseError) return; // its worker knows
      const failing = pile.isOpen ? pile.evaluating : pile.opening;
      if (failing.failed(error, Date.now(), clock.nowMs())) {
        log.error({ err: error, pile: id }, 'a pile could not be looked at; it is tried again');
      }
      this.#show(pile, false);
    }
  }

  /** After a jump silence counts anew, as after a start: how long a probe was silent is not known over it. */
  #followClock(jumpMs: number): void {
    if (jumpMs === 0) return;
    const { clock, log } = this.#parts;
    const nowMs = clock.nowMs();
    log.warn({ jumpMs }, 'the clock of this machine was set; silence is counted anew, and no alarm goes back');
    this.#leases.listenAnew(nowMs);
    for (const pile of this.#piles.all()) {
      evaluateAnew(pile);
      void this.#queues.run(pile.pile.id, async () => pile.watch.clockWasSet(nowMs));
    }
  }

  #show(pile: MonitoredPile, alarmsChanged: boolean): void {
    showPile(this.#showing, pile, alarmsChanged);
  }

  troubles(): TroubledPile[] {
    return [...this.#piles.all()].flatMap((one) => {
      const seen = this.#troubleOf(one);
      return seen ? [{ pileId: one.pile.id, name: one.pile.name, ...seen }] : [];
    });
  }

  #troubleOf(pile: MonitoredPile): TroubleSeen | null {
    const { journal, clock } = this.#parts;
    const unreadable = journal.unreadable.ofPile(pile.pile.id);
    return troubleOf(pile, this.#rounds.underWaySince(pile), unreadable, clock);
  }

  /** Alarms as they stand here and not yet in the journal. */
  unkeptAlarms(): AlarmRecord[] {
    return this.#piles.unkeptAlarms();
  }

  isSuppressed(alarmId: string): boolean {
    return this.#piles.isSuppressed(alarmId);
  }

  silenceOf(siteId: string): SiteSilenceSeen {
    return siteSilenceOf(this.#piles.all(), siteId, this.#parts.clock.nowMs());
  }

  /** Machine time since every pile had its turn; long when judging stands still. */
  sinceRoundMs(): number {
    return this.#rounds.sinceRoundMs();
  }
}
