/**
 * All piles being watched, each by one watch, in turn. It never looks at one pile twice at the same time: each has its
 * own queue.
 */
import { setTimeout as pause, setImmediate as turnOfOthers } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import pLimit from 'p-limit';
import { type ProbeRhythm, siteSilence } from '../../core/notify/site-silence.ts';
import type { Clock } from '../../shared/clock.ts';
import { LostLeaseError, StoreError } from '../../shared/errors.ts';
import type { AlarmRecord, ClaimRecord, Journal, Lease, PileRecord, WatchChange } from '../../shared/store/journal.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { randomId } from '../services/id-from-name.ts';
import type { LiveHub } from '../services/live/live-hub.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';
import { pileSummary } from '../services/views/pile-summary.ts';
import { troubleView, withTrouble } from '../services/views/trouble-view.ts';
import { unseenPile } from '../services/views/unjudged-pile.ts';
import type { BandKeeper } from './band-keeper.ts';
import { claimsBySite } from './claims-by-site.ts';
import { jumpDetector } from './clock-jump.ts';
import { FinishedCurves } from './finished-curves.ts';
import { grouped } from './grouped.ts';
import { LookRounds } from './look-rounds.ts';
import { airByHour } from './measured-air.ts';
import { alarmNotices, type SiteSilenceSeen } from './pile/alarm-notices.ts';
import type { AlarmHandling } from './pile/alarm-registry.ts';
import { Failing } from './pile/failing.ts';
import { type OpenedPile, openPile, type PileRecords, unjudgedPile } from './pile/open-pile.ts';
import type { PilePort, TroubledPile } from './pile/pile-port.ts';
import { pileSources } from './pile/pile-sources.ts';
import { checkpointReachMs } from './pile/pile-watch.ts';
import { type TroubleSeen, troubleSeen } from './pile/trouble-seen.ts';
import { isEmpty, nothingOwed, together } from './pile/unkept.ts';
import type { OwnPile } from './pile/watched-pile.ts';
import { routeReadings } from './route-readings.ts';

/** Real time between rounds: news is judged within this. */
const roundMs = 200;
/** Real time after which a pile without news is looked at all the same, so that silence is noticed. */
const quietLookMs = 2_000;
/** ... and longer when there are so many piles that looking at quiet ones would hold up those with news. */
const quietLookMsPerPile = 2;
/** Real time after which a pile's place is kept in the journal although no alarm changed ... */
const keepPlaceMs = 60_000;
/** ... and longer when there are so many piles that the journal would do little else: reading back is cheap. */
const keepPlaceMsPerPile = 50;
/** Server time after which the expected curve is computed anew from the air measured meanwhile. */
const bandEveryMs = 3 * msPerHour;
/** The same where the air departs from what the curve took it to be: an hour tells, and is then in the curve. */
const departedAfterMs = msPerHour;
/** How far beyond now the expected curve reaches. */
const bandAheadMs = 2 * msPerDay;
/** Expected curves asked for at the same time: each question carries weeks of air, so the others wait unasked. */
const bandsAtATime = 2;
/** Piles begun at a start before signals and timers get their turn. */
const beginAtATime = 16;
/** A start waits so long for one pile; it is then begun beside the others. */
const beginPatienceMs = 10_000;
/** A look that has not ended by then hangs [ms of the machine]. */
const hangsAfterMs = 60_000;

export interface PileMonitorParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly probes: ProbeBook;
  readonly hub: LiveHub;
  readonly bands: BandKeeper;
  /** Where several processes watch, each watches the sites it took; absent where this one watches all. */
  readonly shared?: SharedWatch;
  /** Where this process watches all on a journal that others could reach: what it holds, and whom to tell when it is lost. */
  readonly whole?: { readonly lease: Lease; lost(): void };
  /** Alarms changed, and that is kept; what there is to tell stands in the outbox. Must be quick. */
  readonly onAlarms?: (pile: PileRecord) => void;
  /** Alarms changed and that cannot be kept, try after try: people are to hear of it all the same. Must be quick. */
  readonly onUnkept?: (notices: readonly NoticeRecord[]) => void;
}

/** What a watch that shares the piles with other processes tells its worker. */
interface SharedWatch {
  /** A pile was looked at: whether its expected curve is another, and whether an alarm changed. */
  looked(one: OwnPile, lease: Lease, what: { readonly course: boolean; readonly alarms: boolean }): void;
  /** The journal refused: the site is another's by now. */
  lost(lease: Lease): void;
}

interface Entry extends OpenedPile, OwnPile {
  /** Reading its records, then its readings; nothing is judged before both went well. */
  readonly opening: Failing;
  readonly looking: Failing;
  readonly keeping: Failing;
  readonly openedAtMs: number;
  /** Its records could be read. */
  readonly isOpen: boolean;
  /** Its records changed: what was kept of its judge was made by the former ones, and its batch is judged from the start. */
  isAnew: boolean;
  /** Its readings were read, up to now. */
  begun: boolean;
  lookedAtMs: number;
  keptAtMs: number;
  bandAskedMs: number;
  bandIsNew: boolean;
  news: boolean;
  /** What the journal could not take; it goes with the next change. */
  owed: WatchChange;
  /** Its place could not be kept, so the next one is due. */
  placeDue: boolean;
}

export class PileMonitor implements PilePort {
  readonly #parts: PileMonitorParts;
  readonly #entries = new Map<string, Entry>();
  readonly #queues = new Map<string, Promise<unknown>>();
  #listeningSinceMs: number;
  readonly #jumpMs: () => number;
  readonly #finished: FinishedCurves;
  readonly #bandTurn = pLimit(bandsAtATime);
  readonly #claims = new Map<string, readonly ClaimRecord[]>();
  #round: NodeJS.Timeout | undefined;
  readonly #rounds: LookRounds<Entry>;
  #closed = false;
  #roundEndedAtMs = Date.now();
  readonly #leases = new Map<string, Lease>();
  /** When each site was taken, where several processes share them. */
  readonly #takenAtMs = new Map<string, number>();

  private constructor(parts: PileMonitorParts) {
    this.#parts = parts;
    this.#listeningSinceMs = parts.clock.nowMs();
    this.#jumpMs = jumpDetector(parts.clock);
    this.#finished = new FinishedCurves(parts.journal, parts.readings, parts.log);
    this.#rounds = new LookRounds({
      isDue: (entry) => this.#isDue(entry),
      look: (entry) => this.#tryToLook(entry),
      isClosed: () => this.#closed,
    });
  }

  /** Loads every pile and goes on where each was left. */
  static async open(parts: PileMonitorParts): Promise<PileMonitor> {
    const installation = new PileMonitor(parts);
    if (!parts.shared) await installation.#load(await parts.journal.piles.list());
    installation.#next();
    return installation;
  }

  /** Watches sites from now on, from where the workers before left them. @throws {StoreError} */
  async take(leases: readonly Lease[]): Promise<void> {
    for (const lease of leases) {
      this.#leases.set(lease.site, lease);
      this.#takenAtMs.set(lease.site, this.#parts.clock.nowMs());
    }
    const sites = new Set(leases.map(({ site }) => site));
    await this.#load((await this.#parts.journal.piles.list()).filter(({ siteId }) => sites.has(siteId)));
  }

  /** Watches a site no more. @param keep Whether it is still ours, so that what came in last is judged and kept. */
  async leave(site: string, keep: boolean): Promise<void> {
    const own = [...this.#entries.values()].filter(({ pile }) => pile.siteId === site);
    if (keep) await Promise.all(own.map((entry) => this.#lookOnceMore(entry)));
    this.#leases.delete(site);
    for (const { pile } of own) this.#entries.delete(pile.id);
    this.#route(site);
  }

  /**
   * What is asked of the journal is asked once for all piles, however many there are; then each is opened for itself, and
   * one that cannot be is tried again with the rounds.
   */
  async #load(piles: readonly PileRecord[]): Promise<void> {
    const { journal } = this.#parts;
    const openBatches = (await journal.batches.list()).filter(({ endedAtMs }) => endedAtMs === null);
    const batchOf = new Map(openBatches.map((batch) => [batch.pileId, batch]));
    const alarmsOf = grouped(await journal.alarms.open(), (alarm) => alarm.pileId);
    for (const [siteId, claims] of claimsBySite(await journal.claims.list(), piles)) this.#claims.set(siteId, claims);
    const flows = await journal.lineage.flows();
    for (const pile of piles) {
      const hasBadBatch = journal.unreadable.ofPile(pile.id).some(({ table }) => table === 'batch');
      const entry = await this.#open(
        {
          pile,
          batch: batchOf.get(pile.id) ?? (hasBadBatch ? undefined : null),
          openAlarms: alarmsOf.get(pile.id) ?? [],
          claims: this.#claims.get(pile.siteId) ?? [],
          flows,
        },
        new Failing(),
      );
      this.#entries.set(pile.id, entry);
    }
    for (const siteId of new Set(piles.map((pile) => pile.siteId))) this.#route(siteId);
    let begun = 0;
    for (const { id } of piles) {
      const entry = this.#entries.get(id);
      if (entry?.isOpen) await this.#waitFor(this.#tryToLook(entry), beginPatienceMs);
      if (++begun % beginAtATime === 0) await turnOfOthers();
    }
  }

  /** Never throws: what cannot be opened is an entry too, and says so. @param opening How it went before. */
  async #open(records: PileRecords, opening: Failing): Promise<Entry> {
    const { clock, journal, readings } = this.#parts;
    const nowMs = clock.nowMs();
    try {
      const opened = await openPile({ journal, readings, nowMs }, records);
      return this.#entryOf(opened, opening, true);
    } catch (error) {
      if (opening.failed(error, Date.now(), nowMs)) {
        this.#parts.log.error({ err: error, pile: records.pile.id }, 'a pile cannot be opened; it is tried again');
      }
      return this.#entryOf(unjudgedPile(records, nowMs), opening, false);
    }
  }

  /** Reads what is committed, from the journal's place or from the batch's start, and looks for the first time. */
  async #begin(entry: Entry): Promise<void> {
    if (entry.begun || this.#entries.get(entry.pile.id) !== entry) return; // done, or replaced, meanwhile
    const { clock, journal, log } = this.#parts;
    try {
      await entry.watch.resume(entry.isAnew ? undefined : await journal.watch.get(entry.pile.id), clock.nowMs());
    } catch (error) {
      if (entry.opening.failed(error, Date.now(), clock.nowMs())) {
        log.error({ err: error, pile: entry.pile.id }, 'a pile cannot be judged; it is tried again');
      }
      this.#show(entry);
      return;
    }
    entry.begun = true;
    if (entry.opening.wentWell()) log.info({ pile: entry.pile.id }, 'a pile is judged again');
    this.#askBand(entry);
    await this.#look(entry, true);
  }

  async #waitFor(work: Promise<void>, patienceMs: number): Promise<void> {
    const patience = new AbortController();
    const over = pause(patienceMs, undefined, { signal: patience.signal }).catch(() => undefined);
    await Promise.race([work, over]);
    patience.abort();
  }

  all(): OwnPile[] {
    return [...this.#entries.values()];
  }

  get(pileId: string): OwnPile | undefined {
    return this.#entries.get(pileId);
  }

  /** Reads a pile's records anew after its claims, acts, batch or name changed, and judges its batch from the start. */
  reload(pileId: string): Promise<OwnPile | undefined> {
    return this.#inTurn(pileId, async () => {
      const { journal } = this.#parts;
      const before = this.#entries.get(pileId);
      if (before) await this.#keepOwed(before);
      this.#finished.forget();
      const pile = await journal.piles.get(pileId);
      if (pile && this.#parts.shared && !this.#leases.has(pile.siteId)) return undefined; // another worker's
      if (!pile) {
        this.#entries.delete(pileId);
        if (before) this.#route(before.pile.siteId);
        this.#parts.hub.publish('pile-gone', pileId, { id: pileId });
        return undefined;
      }
      const claims = await journal.claims.list(pile.siteId);
      this.#claims.set(pile.siteId, claims);
      const openAlarms = (await journal.alarms.open()).filter((alarm) => alarm.pileId === pileId);
      const owed = before?.owed ?? nothingOwed;
      const entry = await this.#open(
        { pile, batch: undefined, openAlarms: newest(openAlarms, owed), claims, flows: await journal.lineage.flows() },
        before?.opening ?? new Failing(),
      );
      entry.owed = owed;
      entry.isAnew = true;
      if (before && before.batch?.id === entry.batch?.id) {
        entry.watch.band = before.watch.band; // until the new one is computed
        entry.watch.registry.restoreWaiting(before.watch.registry.waiting());
      }
      // Its readings are heard from here on; the judge then reads everything that is committed already.
      this.#entries.set(pileId, entry);
      this.#route(pile.siteId);
      if (entry.isOpen) await this.#begin(entry);
      else this.#show(entry);
      this.#reloadNeighbours(entry);
      return entry;
    });
  }

  /** Else it would be forgotten; what the journal still refuses is taken over by the pile read anew. */
  async #keepOwed(entry: Entry): Promise<void> {
    if (isEmpty(entry.owed)) return;
    await this.#keep(entry, nothingOwed).catch((error) => {
      if (!(error instanceof StoreError)) throw error;
    });
  }

  /** Piles that lost or found the air of a neighbour: their sources are no longer what the claims say. */
  #reloadNeighbours({ pile }: Entry): void {
    for (const other of this.#entries.values()) {
      if (other.pile.siteId !== pile.siteId || other.pile.id === pile.id) continue;
      const sources = pileSources(this.#claims.get(pile.siteId) ?? [], other.pile.id, other.pile.siteId);
      if (JSON.stringify(sources) === JSON.stringify(other.sources)) continue;
      this.reload(other.pile.id).catch((error) => {
        this.#parts.log.error({ err: error, pile: other.pile.id }, 'a pile could not be read anew');
      });
    }
  }

  /** Nothing is left to do: each was heard as it was kept, and a late one sends its watch back. */
  async broughtIn(): Promise<void> {}

  /** @returns false when no such alarm is open. */
  async handleAlarm(alarmId: string, handling: AlarmHandling): Promise<boolean> {
    // Asked of the boards: one that could not be kept is in no journal.
    const entry = [...this.#entries.values()].find(({ watch }) => watch.registry.has(alarmId));
    if (!entry) return false;
    return this.#inTurn(entry.pile.id, async () => {
      const change = entry.watch.handle(alarmId, handling, this.#parts.clock.nowMs());
      if (!change) return false;
      await this.#keep(entry, { ...change, watch: null });
      return true;
    });
  }

  /** Ends every alarm of a pile whose batch is finished. */
  async closeAlarms(pileId: string): Promise<void> {
    const entry = this.#entries.get(pileId);
    if (!entry) return;
    await this.#inTurn(pileId, () =>
      this.#keep(entry, { ...entry.watch.registry.closeAll(this.#parts.clock.nowMs()), watch: null }),
    );
  }

  /** Judges what came in last and keeps every pile's place. */
  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#round);
    this.#bandTurn.clearQueue();
    await Promise.all([...this.#entries.values()].map((entry) => this.#lookOnceMore(entry)));
  }

  /** What came in last is judged and kept as far as it can be; a pile that cannot be does not keep the others from it. */
  async #lookOnceMore(entry: Entry): Promise<void> {
    if (!entry.begun) return;
    await this.#inTurn(entry.pile.id, () => this.#look(entry, true)).catch((error) => {
      this.#parts.log.error({ err: error, pile: entry.pile.id }, 'what a pile did last could not be kept');
    });
  }

  #inTurn<T>(pileId: string, work: () => Promise<T>): Promise<T> {
    const before = this.#queues.get(pileId) ?? Promise.resolve();
    const turn = before.then(work, work);
    const done = turn.catch(() => undefined);
    this.#queues.set(pileId, done);
    void done.then(() => {
      if (this.#queues.get(pileId) === done) this.#queues.delete(pileId);
    });
    return turn;
  }

  #entryOf(opened: OpenedPile, opening: Failing, isOpen: boolean): Entry {
    const { probes, clock, log } = this.#parts;
    const { pile } = opened;
    const now = () => this.get(pile.id)?.watch ?? opened.watch;
    const entry: Entry = {
      ...opened,
      opening,
      looking: new Failing(),
      keeping: new Failing(),
      openedAtMs: clock.nowMs(),
      isOpen,
      begun: false,
      lookedAtMs: 0,
      keptAtMs: Date.now(),
      bandAskedMs: Number.NEGATIVE_INFINITY,
      bandIsNew: false,
      news: false,
      owed: nothingOwed,
      placeDue: false,
      isAnew: false,
      summary: () => {
        const one = this.#entries.get(pile.id) ?? entry;
        const trouble = this.#troubleOf(one);
        try {
          return withTrouble(pileSummary(one, probes), trouble && troubleView(trouble));
        } catch (error) {
          log.error({ err: error, pile: pile.id }, 'a pile cannot be shown');
          const { batch } = one;
          const seen = trouble ?? {
            code: 'not-judged',
            judged: false,
            sinceMs: clock.nowMs(),
            rowCount: 0,
            details: [],
          };
          return withTrouble(unseenPile(pile, batch), troubleView(seen));
        }
      },
      openAlarms: () => [...now().registry.open()].map(({ record }) => record.state),
      judged: async () => {
        const { assessment, band } = now();
        return { assessment, band };
      },
    };
    return entry;
  }

  #troubleOf(entry: Entry): TroubleSeen | null {
    const { journal, clock } = this.#parts;
    const sinceMs = this.#rounds.underWaySince(entry);
    const hangsForMs = sinceMs === undefined ? 0 : Date.now() - sinceMs;
    return troubleSeen({
      ...entry,
      hangsSinceMs: hangsForMs > hangsAfterMs ? clock.nowMs() - hangsForMs * clock.speed : undefined,
      unreadable: journal.unreadable.ofPile(entry.pile.id),
    });
  }

  troubles(): TroubledPile[] {
    return [...this.#entries.values()].flatMap((entry) => {
      const seen = this.#troubleOf(entry);
      return seen ? [{ pileId: entry.pile.id, name: entry.pile.name, ...seen }] : [];
    });
  }

  /** Alarms as they stand here and not yet in the journal. */
  unkeptAlarms(): AlarmRecord[] {
    return [...this.#entries.values()].flatMap(({ owed }) => owed.alarms);
  }

  #route(siteId: string): void {
    routeReadings(
      this.#parts.probes,
      siteId,
      () => this.#entries.values(),
      (entry) => {
        entry.news = true;
      },
    );
  }

  #next(): void {
    if (this.#closed) return;
    this.#roundEndedAtMs = Date.now();
    this.#round = setTimeout(() => void this.#lookRound().finally(() => this.#next()), roundMs);
  }

  /** Silence counts from here on as after a start: how long a probe was silent cannot be told over a jump. */
  #clockWasSet(jumpMs: number): void {
    const nowMs = this.#parts.clock.nowMs();
    this.#parts.log.warn(
      { jumpMs },
      'the clock of this machine was set; silence is counted anew, and no alarm goes back',
    );
    this.#listeningSinceMs = nowMs;
    for (const site of this.#takenAtMs.keys()) this.#takenAtMs.set(site, nowMs);
    for (const entry of this.#entries.values()) {
      Object.assign(entry, { lookedAtMs: 0, keptAtMs: Date.now(), bandAskedMs: Number.NEGATIVE_INFINITY, news: true });
      void this.#inTurn(entry.pile.id, async () => entry.watch.clockWasSet(nowMs));
    }
  }

  async #lookRound(): Promise<void> {
    const jumpMs = this.#jumpMs();
    if (jumpMs !== 0) this.#clockWasSet(jumpMs);
    await this.#rounds.round(this.#entries.values());
  }

  #isDue(entry: Entry): boolean {
    const realMs = Date.now();
    if (!entry.begun) return entry.opening.mayTry(realMs);
    if (!entry.looking.mayTry(realMs)) return false;
    const quietMs = Math.max(quietLookMs, this.#entries.size * quietLookMsPerPile);
    const owes = entry.keeping.failures > 0 && entry.keeping.mayTry(realMs);
    return entry.news || owes || realMs - entry.lookedAtMs >= quietMs;
  }

  /** Never rejects: what goes wrong with one pile is said, and tried again by itself. */
  async #tryToLook(entry: Entry): Promise<void> {
    const { clock, log } = this.#parts;
    const { id } = entry.pile;
    try {
      if (!entry.isOpen) await this.reload(id);
      else if (!entry.begun) await this.#inTurn(id, () => this.#begin(entry));
      else await this.#inTurn(id, () => this.#look(entry, this.#placeIsDue(entry)));
      if (entry.looking.wentWell()) log.info({ pile: id }, 'a pile is judged again');
    } catch (error) {
      if (error instanceof LostLeaseError) return; // its worker was told
      const failing = entry.isOpen ? entry.looking : entry.opening;
      if (failing.failed(error, Date.now(), clock.nowMs())) {
        log.error({ err: error, pile: id }, 'a pile could not be looked at; it is tried again');
      }
      this.#show(entry);
    }
  }

  #placeIsDue(entry: Entry): boolean {
    const keepEveryMs = Math.max(keepPlaceMs, this.#entries.size * keepPlaceMsPerPile);
    return entry.placeDue || Date.now() - entry.keptAtMs >= keepEveryMs;
  }

  async #look(entry: Entry, keepPlace: boolean): Promise<void> {
    const { clock } = this.#parts;
    if (this.#entries.get(entry.pile.id) !== entry) return; // replaced meanwhile
    const nowMs = clock.nowMs();
    entry.news = false;
    entry.lookedAtMs = Date.now();
    const listeningSinceMs = this.#takenAtMs.get(entry.pile.siteId) ?? this.#listeningSinceMs;
    const mayKeep = entry.keeping.mayTry(Date.now());
    const change = await entry.watch.look(nowMs, keepPlace && mayKeep, nowMs - listeningSinceMs);
    await this.#keepWhatCanBe(entry, change);
    const askedForMs = nowMs - entry.bandAskedMs;
    const departed = askedForMs >= departedAfterMs && entry.watch.weatherDeparts;
    if (departed || askedForMs >= bandEveryMs) this.#askBand(entry);
  }

  /** What cannot be kept is owed; judging goes on all the same. */
  async #keepWhatCanBe(entry: Entry, change: WatchChange): Promise<void> {
    try {
      await this.#keep(entry, change);
    } catch (error) {
      if (!(error instanceof StoreError)) throw error; // said already
    }
  }

  /** @throws {StoreError} when it could not be kept; then it is owed, and goes with the next change. */
  async #keep(entry: Entry, change: WatchChange): Promise<void> {
    const { shared, whole, log, clock } = this.#parts;
    const lease = this.#leases.get(entry.pile.siteId) ?? whole?.lease;
    if (shared && !lease) return;
    const all = together(entry.owed, { ...change, notices: this.#noticesOf(entry, change) });
    const isNews = change.alarms.length > 0;
    const mayTry = isNews || entry.keeping.mayTry(Date.now());
    if (!isEmpty(all) && mayTry) {
      // A place is only good for its moment: a later one is kept instead.
      entry.owed = { ...all, watch: null };
      try {
        await this.#underLease({ ...all, lease });
      } catch (error) {
        if (error instanceof LostLeaseError) throw error;
        if (all.watch) {
          entry.placeDue = true;
          entry.watch.placeWasNotKept();
        }
        if (entry.keeping.failed(error, Date.now(), clock.nowMs())) {
          log.error({ err: error, pile: entry.pile.id }, 'what a pile does cannot be kept; it is tried again');
        }
        const { notices = [] } = entry.owed;
        if (entry.keeping.stands && notices.length > 0) this.#parts.onUnkept?.(notices);
        this.#show(entry);
        throw error;
      }
      entry.owed = nothingOwed;
      if (all.watch) {
        entry.placeDue = false;
        entry.keptAtMs = Date.now();
      }
      if (entry.keeping.wentWell()) log.info({ pile: entry.pile.id }, 'what a pile does is kept again');
      if (all.alarms.length > 0) this.#parts.onAlarms?.(entry.pile);
    }
    this.#show(entry, all.alarms.length > 0);
  }

  /** To open pages, and to processes that show it. */
  #show(entry: Entry, alarms = false): void {
    const { hub, shared } = this.#parts;
    hub.publishLater('pile', entry.pile.id, () => entry.summary());
    const lease = this.#leases.get(entry.pile.siteId);
    if (!shared || !lease) return;
    shared.looked(entry, lease, { course: entry.bandIsNew, alarms });
    entry.bandIsNew = false;
  }

  async #underLease(change: WatchChange): Promise<void> {
    try {
      await this.#parts.journal.watch.keep(change);
    } catch (error) {
      if (error instanceof LostLeaseError && change.lease) {
        this.#parts.shared?.lost(change.lease);
        this.#parts.whole?.lost();
      }
      throw error;
    }
  }

  #noticesOf(entry: Entry, change: WatchChange): NoticeRecord[] {
    if (change.steps.length === 0) return [];
    const held = new Set([...entry.watch.registry.open()].flatMap((one) => (one.heldBackBy ? [one.record.id] : [])));
    const silence = () => this.silenceOf(entry.pile.siteId);
    return alarmNotices(change, entry.pile, { isHeldBack: (id) => held.has(id), silence, newId: randomId });
  }

  /** Machine time since every pile had its turn; long when judging stands still. */
  sinceRoundMs(): number {
    return Date.now() - this.#roundEndedAtMs;
  }

  /** Whether another warning explains this one just now; false for one that is not watched here. */
  isHeldBack(alarmId: string): boolean {
    for (const { watch } of this.#entries.values()) {
      for (const { record, heldBackBy } of watch.registry.open()) if (record.id === alarmId) return heldBackBy !== null;
    }
    return false;
  }

  /** Whether everything at a site has fallen silent, as far as it is watched here. */
  silenceOf(siteId: string): SiteSilenceSeen {
    const rhythms = new Map<string, ProbeRhythm>();
    const pileNames: string[] = [];
    for (const { pile, watch, sources } of this.#entries.values()) {
      if (pile.siteId !== siteId || !watch.batch) continue;
      pileNames.push(pile.name);
      for (const { position, ...rhythm } of watch.rhythms()) {
        const source = sources.find((one) => one.position === position && one.claim.toMs === null);
        if (source) rhythms.set(source.claim.probe, rhythm);
      }
    }
    return { ...siteSilence([...rhythms.values()], this.#parts.clock.nowMs()), probeCount: rhythms.size, pileNames };
  }

  /** Asks for the expected curve beside the main thread; the next look uses it once it is there. */
  #askBand(entry: Entry): void {
    const { clock, bands, log, readings } = this.#parts;
    const { setup } = entry.watch;
    if (!setup) return;
    const nowMs = clock.nowMs();
    entry.bandAskedMs = nowMs;
    const ask = async () => {
      const air = await airByHour(readings, entry.judgedSources, setup.startedAtMs, nowMs);
      const finished = await this.#finished.ofStage(setup.stage);
      return bands.compute({
        setup,
        air,
        finished,
        toMs: nowMs + bandAheadMs,
        forecastFromMs: nowMs - checkpointReachMs,
      });
    };
    void this.#bandTurn(ask).then(
      (band) => {
        entry.watch.band = band;
        entry.bandIsNew = true;
        entry.news = true;
      },
      (error) => {
        if (!this.#closed) log.warn({ err: error, pile: entry.pile.id }, 'no expected curve');
      },
    );
  }
}

/** Open alarms as the journal has them, and over them what it could not take yet. */
function newest(kept: readonly AlarmRecord[], { alarms }: WatchChange): AlarmRecord[] {
  const owed = new Set(alarms.map(({ id }) => id));
  return [...kept.filter(({ id }) => !owed.has(id)), ...alarms.filter(({ closedAtMs }) => closedAtMs === null)];
}
