/**
 * server/watch/watch-house.ts: all piles being watched, each by one watch, in turn.
 *
 * Takes:  committed readings through the probe book, acts and claims through the routes, the clock.
 * Gives:  summaries for pages, alarm changes kept in the journal before anyone is shown them.
 * Never:  looks at one pile twice at the same time: each has its own queue.
 */
import { setImmediate as turnOfOthers } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import pLimit from 'p-limit';
import type { JudgeReading } from '../../core/judge/setup.ts';
import { type ProbeRhythm, siteSilence } from '../../core/notify/site-silence.ts';
import type { Clock } from '../../shared/clock.ts';
import { LostLeaseError, StoreError } from '../../shared/errors.ts';
import type {
  AlarmRecord,
  BatchRecord,
  ClaimRecord,
  FlowRecord,
  Journal,
  Lease,
  PileRecord,
  WatchChange,
  WatchRecord,
} from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { NoticeRecord } from '../../shared/store/telling-store.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { heardOfPeople } from '../journal/heard-by-judge.ts';
import type { LiveHub } from '../live/live-hub.ts';
import { alarmNotices, type SiteSilenceSeen } from '../notify/alarm-notices.ts';
import type { KnownProbe, ProbeBook } from '../probes/probe-book.ts';
import { randomId } from '../routes/id-from-name.ts';
import { pileSummary } from '../views/pile-summary.ts';
import { AlarmBoard, type AlarmHandling } from './alarm-board.ts';
import type { BandKeeper } from './band-keeper.ts';
import { claimsBySite } from './claims-by-site.ts';
import { jumpDetector } from './clock-jump.ts';
import { FinishedCurves } from './finished-curves.ts';
import { grouped } from './grouped.ts';
import { airByHour } from './measured-air.ts';
import { judgedFrom } from './origin.ts';
import { isJudged, judged, judgedQuantities, type PileSource, pileSources, sourceSeries } from './pile-sources.ts';
import { checkpointReachMs, PileWatch } from './pile-watch.ts';
import type { WatchDoor } from './watch-door.ts';
import type { OwnPile } from './watched-pile.ts';

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
/** House time after which the expected curve is computed anew from the air measured meanwhile. */
const bandEveryMs = 3 * msPerHour;
/** The same where the air departs from what the curve took it to be: an hour tells, and is then in the curve. */
const departedAfterMs = msPerHour;
/** How far beyond now the expected curve reaches. */
const bandAheadMs = 2 * msPerDay;
/** Expected curves asked for at the same time: each question carries weeks of air, so the others wait unasked. */
const bandsAtATime = 2;
/** Piles begun at a start before signals and timers get their turn. */
const beginAtATime = 16;
/** Real time a round may take before readings and pages get their turn: late ones may send every pile back at once. */
const roundTurnMs = 20;
/** Enough to be quick, few enough that a start needs little memory. */
const pageRows = 8_192;

export interface WatchHouseParts {
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
}

/** What a watch that shares the piles with other processes tells its worker. */
export interface SharedWatch {
  /** A pile was looked at: whether its expected curve is another, and whether an alarm changed. */
  looked(one: OwnPile, lease: Lease, what: { readonly course: boolean; readonly alarms: boolean }): void;
  /** The journal refused: the site is another's by now. */
  lost(lease: Lease): void;
}

interface Entry extends OwnPile {
  /** What the judge hears: its own probes, and before it was split off those of the pile it came from. */
  readonly judgedSources: readonly PileSource[];
  lookedAtMs: number;
  keptAtMs: number;
  bandAskedMs: number;
  bandIsNew: boolean;
  news: boolean;
  /** What the journal could not take when it was away; it goes with the next change. */
  owed: WatchChange;
}

const nothingOwed: WatchChange = { alarms: [], steps: [], watch: null };

export class WatchHouse implements WatchDoor {
  readonly #parts: WatchHouseParts;
  readonly #entries = new Map<string, Entry>();
  readonly #queues = new Map<string, Promise<unknown>>();
  #listeningSinceMs: number;
  readonly #jumpMs: () => number;
  readonly #finished: FinishedCurves;
  readonly #bandTurn = pLimit(bandsAtATime);
  readonly #claims = new Map<string, readonly ClaimRecord[]>();
  #round: NodeJS.Timeout | undefined;
  #closed = false;
  #storeAway = false;
  #roundEndedAtMs = Date.now();
  readonly #leases = new Map<string, Lease>();
  /** When each site was taken, where several processes share them. */
  readonly #takenAtMs = new Map<string, number>();

  private constructor(parts: WatchHouseParts) {
    this.#parts = parts;
    this.#listeningSinceMs = parts.clock.nowMs();
    this.#jumpMs = jumpDetector(parts.clock);
    this.#finished = new FinishedCurves(parts.journal, parts.readings);
  }

  /** Loads every pile and goes on where each was left. */
  static async open(parts: WatchHouseParts): Promise<WatchHouse> {
    const house = new WatchHouse(parts);
    if (!parts.shared) await house.#load(await parts.journal.piles.list());
    house.#next();
    return house;
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
    if (keep) for (const entry of own) await this.#inTurn(entry.pile.id, () => this.#look(entry, true));
    this.#leases.delete(site);
    for (const { pile } of own) this.#entries.delete(pile.id);
    this.#route(site);
  }

  /** What is asked of the journal is asked once for all piles, however many there are. */
  async #load(piles: readonly PileRecord[]): Promise<void> {
    const { journal } = this.#parts;
    const openBatches = (await journal.batches.list()).filter(({ endedAtMs }) => endedAtMs === null);
    const batchOf = new Map(openBatches.map((batch) => [batch.pileId, batch]));
    const alarmsOf = grouped(await journal.alarms.open(), (alarm) => alarm.pileId);
    for (const [siteId, claims] of claimsBySite(await journal.claims.list(), piles)) this.#claims.set(siteId, claims);
    const flows = await journal.lineage.flows();
    for (const pile of piles) {
      const claims = this.#claims.get(pile.siteId) ?? [];
      const open = alarmsOf.get(pile.id) ?? [];
      const entry = await this.#entryOf(pile, batchOf.get(pile.id) ?? null, open, claims, flows);
      this.#entries.set(pile.id, entry);
    }
    for (const siteId of new Set(piles.map((pile) => pile.siteId))) this.#route(siteId);
    let begun = 0;
    for (const { id } of piles) {
      await this.#inTurn(id, async () => {
        const entry = this.#entries.get(id);
        if (entry) await this.#begin(entry, await journal.watch.get(id));
      });
      begun += 1;
      if (begun % beginAtATime === 0) await turnOfOthers();
    }
  }

  /** Reads what is committed, from the journal's place or from the batch's start, and looks for the first time. */
  async #begin(entry: Entry, place: WatchRecord | undefined): Promise<void> {
    await entry.watch.resume(place, this.#parts.clock.nowMs());
    this.#askBand(entry);
    await this.#look(entry, true);
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
      if (before && before.owed !== nothingOwed) await this.#keep(before, nothingOwed); // else it would be forgotten
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
      const batch = (await journal.batches.open(pileId)) ?? null;
      const open = (await journal.alarms.open()).filter((alarm) => alarm.pileId === pileId);
      const entry = await this.#entryOf(pile, batch, open, claims, await journal.lineage.flows());
      if (before && before.batch?.id === batch?.id) {
        entry.watch.band = before.watch.band; // until the new one is computed
        entry.watch.board.restoreWaiting(before.watch.board.waiting());
      }
      // Its readings are heard from here on; the judge then reads everything that is committed already.
      this.#entries.set(pileId, entry);
      this.#route(pile.siteId);
      await this.#begin(entry, undefined);
      this.#reloadNeighbours(entry);
      return entry;
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
    const alarm = await this.#parts.journal.alarms.get(alarmId);
    const entry = alarm && this.#entries.get(alarm.pileId);
    if (!entry) return false;
    return this.#inTurn(alarm.pileId, async () => {
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
      this.#keep(entry, { ...entry.watch.board.closeAll(this.#parts.clock.nowMs()), watch: null }),
    );
  }

  /** Judges what came in last and keeps every pile's place. */
  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#round);
    this.#bandTurn.clearQueue();
    for (const entry of [...this.#entries.values()]) await this.#inTurn(entry.pile.id, () => this.#look(entry, true));
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

  async #entryOf(
    pile: PileRecord,
    batch: BatchRecord | null,
    open: readonly AlarmRecord[],
    siteClaims: readonly ClaimRecord[],
    flows: readonly FlowRecord[],
  ): Promise<Entry> {
    const { journal, probes } = this.#parts;
    const acts = await journal.acts.list(pile.id);
    const heard = await heardOfPeople(journal, batch);
    const sources = pileSources(siteClaims, pile.id, pile.siteId);
    const from = batch && (await judgedFrom(journal, flows, batch, acts, heard, sources));
    const judgedSources = from?.sources ?? sources;
    const board = new AlarmBoard(pile.id, open, randomId);
    const watch = new PileWatch({
      pile,
      batch,
      acts,
      heard,
      ...(from && { setup: from.setup }),
      board,
      readBack: (fromMs, toMs) => this.#readBack(judgedSources, fromMs, toMs),
    });
    return {
      pile,
      batch,
      watch,
      sources,
      judgedSources,
      lookedAtMs: 0,
      keptAtMs: Date.now(),
      bandAskedMs: Number.NEGATIVE_INFINITY,
      bandIsNew: false,
      news: false,
      owed: nothingOwed,
      summary: () => pileSummary(this.get(pile.id) ?? { pile, batch, watch, sources }, probes),
      openAlarms: () => [...(this.get(pile.id)?.watch ?? watch).board.open()].map(({ record }) => record.state),
      judged: async () => {
        const { assessment, band } = this.get(pile.id)?.watch ?? watch;
        return { assessment, band };
      },
    };
  }

  async *#readBack(sources: readonly PileSource[], fromMs: number, toMs: number): AsyncGenerator<JudgeReading[]> {
    const series = sourceSeries(sources, judgedQuantities);
    let nextMs = fromMs;
    while (nextMs < toMs) {
      const rows = await this.#parts.readings.rows(series, nextMs, toMs, pageRows);
      const last = rows.at(-1);
      if (!last) return;
      yield rows.flatMap((row) => judged(sources, row) ?? []);
      nextMs = last.atMs + 1;
    }
  }

  /** Tells each probe that the piles of a site hear which piles hear it: a probe may serve a pile of another site. */
  #route(siteId: string): void {
    const sites = new Set([siteId]);
    for (const { pile, sources } of this.#entries.values()) {
      if (pile.siteId === siteId) for (const { claim } of sources) sites.add(claim.site);
    }
    const listeners = new Map<KnownProbe, KnownProbe['listeners'][number][]>();
    for (const entry of this.#entries.values()) {
      for (const { claim } of entry.sources) {
        if (claim.toMs !== null || !sites.has(claim.site)) continue;
        const known = this.#parts.probes.of(claim.site, claim.probe);
        const heard = listeners.get(known) ?? [];
        listeners.set(known, heard);
        heard.push((reading) => {
          if (!isJudged(reading.quantity)) return;
          const heardReading = judged(entry.sources, reading);
          if (heardReading) entry.watch.receive(heardReading);
          entry.news = true;
        });
      }
    }
    for (const known of this.#parts.probes.all()) {
      if (sites.has(known.site)) known.listeners = listeners.get(known) ?? [];
    }
  }

  #next(): void {
    if (this.#closed) return;
    this.#roundEndedAtMs = Date.now();
    this.#round = setTimeout(() => void this.#lookRound().finally(() => this.#next()), roundMs);
  }

  /** Silence counts from here on as after a start: how long a probe was silent cannot be told over a jump. */
  async #clockWasSet(jumpMs: number): Promise<void> {
    const nowMs = this.#parts.clock.nowMs();
    this.#parts.log.warn(
      { jumpMs },
      'the clock of this machine was set; silence is counted anew, and no alarm goes back',
    );
    this.#listeningSinceMs = nowMs;
    for (const site of this.#takenAtMs.keys()) this.#takenAtMs.set(site, nowMs);
    for (const entry of this.#entries.values()) {
      Object.assign(entry, { lookedAtMs: 0, keptAtMs: Date.now(), bandAskedMs: Number.NEGATIVE_INFINITY, news: true });
      await this.#inTurn(entry.pile.id, async () => entry.watch.clockWasSet(nowMs));
    }
  }

  async #lookRound(): Promise<void> {
    const jumpMs = this.#jumpMs();
    if (jumpMs !== 0) await this.#clockWasSet(jumpMs);
    const realMs = Date.now();
    const quietMs = Math.max(quietLookMs, this.#entries.size * quietLookMsPerPile);
    const keepEveryMs = Math.max(keepPlaceMs, this.#entries.size * keepPlaceMsPerPile);
    let turnAtMs = performance.now();
    for (const entry of this.#entries.values()) {
      if (performance.now() - turnAtMs >= roundTurnMs) {
        await turnOfOthers();
        turnAtMs = performance.now();
      }
      if (this.#closed) return;
      if (!entry.news && realMs - entry.lookedAtMs < quietMs) continue;
      const keepPlace = realMs - entry.keptAtMs >= keepEveryMs;
      try {
        await this.#inTurn(entry.pile.id, () => this.#look(entry, keepPlace));
      } catch (error) {
        if (error instanceof LostLeaseError) continue; // its worker was told
        if (!(error instanceof StoreError)) {
          this.#parts.log.error({ err: error, pile: entry.pile.id }, 'a pile could not be looked at');
          continue;
        }
        // It is the same for every pile: said once, and tried again at the next round.
        if (!this.#storeAway)
          this.#parts.log.error({ err: error }, 'what the piles do cannot be kept; it is tried again');
        this.#storeAway = true;
        return;
      }
    }
  }

  async #look(entry: Entry, keepPlace: boolean): Promise<void> {
    const { clock } = this.#parts;
    if (this.#entries.get(entry.pile.id) !== entry) return; // replaced meanwhile
    const nowMs = clock.nowMs();
    entry.news = false;
    entry.lookedAtMs = Date.now();
    const listeningSinceMs = this.#takenAtMs.get(entry.pile.siteId) ?? this.#listeningSinceMs;
    const change = await entry.watch.look(nowMs, keepPlace, nowMs - listeningSinceMs);
    await this.#keep(entry, change);
    const askedForMs = nowMs - entry.bandAskedMs;
    const departed = askedForMs >= departedAfterMs && entry.watch.weatherDeparts;
    if (departed || askedForMs >= bandEveryMs) this.#askBand(entry);
  }

  async #keep(entry: Entry, change: WatchChange) {
    const { shared, whole } = this.#parts;
    const lease = this.#leases.get(entry.pile.siteId) ?? whole?.lease;
    if (shared && !lease) return;
    const all = together(entry.owed, { ...change, notices: this.#noticesOf(entry, change) });
    if (all.alarms.length > 0 || all.watch) {
      entry.owed = all;
      await this.#underLease({ ...all, lease });
      entry.owed = nothingOwed;
      if (all.watch) entry.keptAtMs = Date.now();
      if (this.#storeAway) this.#parts.log.info('what the piles do is kept again');
      this.#storeAway = false;
      if (all.alarms.length > 0) this.#parts.onAlarms?.(entry.pile);
    }
    this.#parts.hub.publishLater('pile', entry.pile.id, () => entry.summary());
    if (shared && lease) {
      shared.looked(entry, lease, { course: entry.bandIsNew, alarms: all.alarms.length > 0 });
      entry.bandIsNew = false;
    }
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
    const held = new Set([...entry.watch.board.open()].flatMap((one) => (one.heldBackBy ? [one.record.id] : [])));
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
      for (const { record, heldBackBy } of watch.board.open()) if (record.id === alarmId) return heldBackBy !== null;
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

/** One change of two that follow each other: the newest of each alarm, every step. */
function together(first: WatchChange, then: WatchChange): WatchChange {
  if (first === nothingOwed) return then;
  const alarms = new Map([...first.alarms, ...then.alarms].map((alarm) => [alarm.id, alarm]));
  return {
    alarms: [...alarms.values()],
    steps: [...first.steps, ...then.steps],
    watch: then.watch ?? first.watch,
    notices: [...(first.notices ?? []), ...(then.notices ?? [])],
  };
}
