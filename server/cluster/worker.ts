/**
 * One of several processes that take readings in and watch piles, each for the sites it holds. It never goes on with a
 * site that is another's: the journal refuses what a former holder writes, whenever it wakes up.
 */
import type { FastifyBaseLogger } from 'fastify';
import { defaultSession } from '../../ingest/client/site-sessions.ts';
import type { SiteIngest } from '../../ingest/ingest.ts';
import type { Journal, JournalNews, Lease, LeaseTable } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import type { ForgetProbes } from '../services/probes/forget-probes.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';
import { assignSites } from './assign-sites.ts';
import { type Coalesced, coalesced } from './coalesce.ts';
import { PileCommands } from './pile-commands.ts';
import type { ViewWriter } from './view-writer.ts';

/** A worker that has not been heard of for this long has lost its sites. */
const leaseMs = 8_000;
/** Between two looks at the table of leases. */
export const beatMs = 2_000;
/** A barrier that did not come through is sent again after this. */
const barrierAgainMs = 20_000;
const commandKeptMs = 3_600_000;

export interface WorkerParts {
  readonly id: string;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly probes: ProbeBook;
  readonly watch: PileMonitor;
  readonly ingest: SiteIngest;
  readonly views: ViewWriter;
  readonly forgetting: Pick<ForgetProbes, 'forgetHere'>;
  /** Introduces the piles of a site to hubs anew. */
  introduce(site: string): void;
  readonly log: FastifyBaseLogger;
}

interface Held {
  readonly lease: Lease;
  /** The piles are read and the session is open. */
  ready: boolean;
  barrierAtMs: number;
}

export class Worker {
  readonly #parts: WorkerParts;
  readonly #held = new Map<string, Held>();
  readonly #done: Promise<unknown>[] = [];
  /** By this process's own clock, which a stopped process finds moved on. */
  #goodUntil = 0;
  #heard: ReadonlySet<string> = new Set();
  #timer: NodeJS.Timeout | undefined;
  /** One change of hands after the other. */
  #turn: Promise<void> = Promise.resolve();
  readonly #commands: PileCommands;
  #line: { close(): Promise<void> } | undefined;
  readonly #records: Coalesced;
  #closed = false;
  #away = false;
  #beats = 0;

  constructor(parts: WorkerParts) {
    const { journal, watch, views, forgetting, log } = parts;
    this.#parts = parts;
    this.#commands = new PileCommands({
      journal,
      watch,
      views,
      forgetting,
      introduce: (site) => parts.introduce(site),
      log,
      readySites: () => [...this.#held].filter(([, { ready }]) => ready).map(([site]) => site),
      isAway: () => this.#away,
    });
    this.#records = coalesced(
      () => parts.probes.recallRecords(journal),
      2_000,
      () => undefined, // the beat says that the journal is away
    );
  }

  /** Ids of the sites held, for whoever looks. */
  get sites(): string[] {
    return [...this.#held.keys()];
  }

  async start(): Promise<void> {
    await this.#knowSites();
    this.#line = this.#parts.journal.hear((news) => this.#hear(news));
    await this.#beat();
  }

  /** The journal refused a write under this lease. */
  lost(lease: Lease): void {
    if (this.#held.get(lease.site)?.lease.fence === lease.fence) this.#drop(lease.site);
  }

  unknownSite(site: string): void {
    this.#quietly(this.#parts.journal.leases.know([site]));
  }

  /** A barrier came through the default session: everything after it waits in the site's own session. */
  barrier(site: string, text: string): void {
    const lease = leaseFrom(text);
    if (lease?.site === site) this.#quietly(this.#parts.journal.leases.setHeard(lease, true));
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#commands.stop();
    clearTimeout(this.#timer);
    await this.#line?.close();
    await this.#records.close();
    await this.#turn;
    await this.#commands.settled();
    const { ingest, watch, views, journal } = this.#parts;
    await ingest.close();
    await watch.close();
    await views.close();
    await Promise.allSettled(this.#done);
    await journal.leases.leave(this.#parts.id).catch(() => undefined);
  }

  async #beat(): Promise<void> {
    clearTimeout(this.#timer);
    const { journal, id, log } = this.#parts;
    const startedAt = performance.now();
    try {
      const table = await journal.leases.beat(id, leaseMs, { sites: this.#held.size });
      this.#goodUntil = startedAt + leaseMs;
      if (this.#away) log.info('leases are confirmed again');
      this.#away = false;
      this.#follow(table);
      if (++this.#beats % 30 === 0) {
        await this.#knowSites();
        await journal.commands.clear(commandKeptMs);
      }
    } catch (error) {
      if (!this.#away) log.error({ err: error }, 'leases cannot be confirmed; it is tried again');
      this.#away = true;
    }
    if (!this.#closed) this.#timer = setTimeout(() => void this.#beat(), beatMs);
  }

  #follow(table: LeaseTable): void {
    const { ingest } = this.#parts;
    const rows = new Map(table.leases.map((row) => [row.site, row]));
    for (const [site, { lease }] of this.#held) {
      const row = rows.get(site);
      if (row?.holder !== lease.holder || row.fence !== lease.fence) this.#drop(site);
    }
    this.#heard = new Set(table.leases.filter(({ heard }) => heard).map(({ site }) => site));
    ingest.sites.setHeard(this.#heard);
    for (const [site, held] of this.#held) {
      ingest.sites.confirm(site);
      this.#sendBarrierAgain(site, held);
    }
    const { take, letGo } = assignSites(table, this.#parts.id);
    if (take.length > 0) this.#inTurn(() => this.#take(take));
    for (const site of letGo) this.#inTurn(() => this.#letGo(site));
    if (this.#held.size > 0) this.#commands.kick();
  }

  #inTurn(work: () => Promise<void>): void {
    this.#turn = this.#turn.then(async () => {
      if (this.#closed) return;
      await work().catch((error) => this.#parts.log.error({ err: error }, 'a site could not change hands'));
    });
  }

  async #take(sites: readonly string[]): Promise<void> {
    const { journal, watch, probes, readings, ingest, id, log } = this.#parts;
    const taken: Lease[] = [];
    for (const site of sites) {
      if (this.#held.has(site)) continue;
      const lease = await journal.leases.take(site, id, leaseMs);
      if (!lease) continue;
      taken.push(lease);
      this.#held.set(site, { lease, ready: false, barrierAtMs: 0 });
    }
    if (taken.length === 0) return;
    try {
      // What the holder before took in, then the piles from where it left them, and only then what waits at the broker.
      const own = taken.filter(({ site }) => site !== defaultSession);
      const lasts = await readings.lasts(own.map(({ site }) => site));
      await probes.recallReadings({ lasts: async () => lasts });
      await probes.recallRecords(journal);
      ingest.recall(lasts);
      await watch.take(own);
    } catch (error) {
      for (const lease of taken) {
        await this.#drop(lease.site);
        await journal.leases.release(lease).catch(() => undefined);
      }
      throw error;
    }
    for (const lease of taken) {
      const held = this.#held.get(lease.site);
      if (held?.lease !== lease) continue; // lost meanwhile
      held.ready = true;
      ingest.sites.hold(lease.site, {
        mayConnect: () => !this.#closed && performance.now() < this.#goodUntil,
        stands: (hadBefore) => this.#stands(lease, hadBefore),
      });
    }
    log.info({ sites: taken.map(({ site }) => site) }, 'took sites');
    this.#commands.kick();
  }

  /** The site's own session stands. @returns the barrier that tells the default session so, unless it knows. */
  async #stands(lease: Lease, hadBefore: boolean): Promise<string | undefined> {
    if (lease.site === defaultSession) return undefined;
    const held = this.#held.get(lease.site);
    if (!held || (hadBefore && this.#heard.has(lease.site))) return undefined;
    // The broker did not know it: until the barrier is through, the default session keeps what is published there.
    if (!hadBefore) await this.#parts.journal.leases.setHeard(lease, false).catch(() => undefined);
    held.barrierAtMs = Date.now();
    return JSON.stringify(lease);
  }

  #sendBarrierAgain(site: string, held: Held): void {
    if (!held.ready || site === defaultSession || this.#heard.has(site)) return;
    if (held.barrierAtMs === 0 || Date.now() - held.barrierAtMs < barrierAgainMs) return;
    held.barrierAtMs = Date.now();
    this.#parts.ingest.sites.barrierAgain(site, JSON.stringify(held.lease));
  }

  /** In order: nothing more is taken in, what was taken is kept and judged, and the next finds all of it. */
  async #letGo(site: string): Promise<void> {
    const held = this.#held.get(site);
    if (!held?.ready) return;
    const { ingest, watch, views, journal } = this.#parts;
    await ingest.sites.pauseSite(site);
    await ingest.settled(2_000);
    await ingest.sites.letGo(site);
    await watch.leave(site, true);
    await views.flush();
    views.leave(site);
    this.#held.delete(site);
    await journal.leases.release(held.lease);
  }

  /** It is another's: nothing of it is written any more. */
  #drop(site: string): Promise<void> {
    const { ingest, watch, views, log } = this.#parts;
    log.warn({ site }, 'lost a site to another worker');
    this.#held.delete(site);
    views.leave(site);
    const done = Promise.all([ingest.sites.letGo(site), watch.leave(site, false)]).then(() => undefined);
    this.#quietly(done);
    return done.catch(() => undefined);
  }

  #hear({ topic, about }: JournalNews): void {
    const { journal } = this.#parts;
    if (topic === 'command' && this.#held.has(about)) this.#commands.kick();
    const all = topic === 'missed';
    const changed = (table: string) => all || (topic === 'changed' && about === table);
    if (all) this.#commands.kick();
    if (changed('site')) this.#quietly(this.#knowSites());
    if (changed('probe') || changed('claim')) this.#records.ask();
    if (changed('air_ahead')) {
      for (const site of this.#held.keys()) this.#quietly(this.#parts.watch.airAheadIssued(site));
    }
    if (changed('mapping')) {
      this.#quietly(journal.mappings.list().then((mappings) => this.#parts.ingest.setMappings(mappings)));
    }
  }

  async #knowSites(): Promise<void> {
    const { journal } = this.#parts;
    await journal.leases.know([defaultSession, ...(await journal.sites.list()).map(({ id }) => id)]);
  }

  #quietly(work: Promise<unknown>): void {
    const done = work.catch((error) => {
      if (!this.#away && !this.#closed) this.#parts.log.warn({ err: error }, 'the journal could not be reached');
    });
    this.#done.push(done);
    void done.then(() => this.#done.splice(this.#done.indexOf(done), 1));
  }
}

function leaseFrom(text: string): Lease | undefined {
  try {
    const { site, holder, fence } = JSON.parse(text) as Partial<Lease>;
    if (typeof site === 'string' && typeof holder === 'string' && typeof fence === 'number') {
      return { site, holder, fence };
    }
  } catch {} // somebody else's message on that topic
  return undefined;
}
