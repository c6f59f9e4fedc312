/**
 * The pile port of a process that serves pages while workers elsewhere watch the piles. It never changes an alarm
 * itself: whoever watches the pile does, under its lease.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { AlarmHandling } from '../../core/session/alarm-registry.ts';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import { StoreError } from '../../shared/errors.ts';
import type { PileCommand } from '../../shared/pile-command.ts';
import type { BatchRecord, ClaimRecord, Journal, JournalNews, PileRecord } from '../../shared/store/journal.ts';
import { rowWords } from '../../shared/store/unreadable.ts';
import { randomId } from '../id-from-name.ts';
import { claimsBySite } from '../monitor/claims-by-site.ts';
import type { SiteSilenceSeen } from '../pile/alarm-notices.ts';
import type { PilePort, TroubledPile } from '../pile/pile-port.ts';
import { pileSources, standbyAir } from '../pile/pile-sources.ts';
import type { WatchedPile } from '../pile/watched-pile.ts';
import type { LiveHub } from '../services/live/live-hub.ts';
import { troubleView, withTrouble } from '../services/views/trouble-view.ts';
import { unseenPile } from '../services/views/unjudged-pile.ts';
import { type Coalesced, coalesced } from './coalesce.ts';
import { judgedFrom } from './view-text.ts';

/** Long enough for a dead worker's sites to be taken over. */
const answerWithinMs = 20_000;
/** A pile read anew is shown as it was until its watcher has done so. */
const reloadWithinMs = 5_000;
/** News may be lost without a sign only if the database breaks its word; then this is how long it takes to show. */
const lookAnywayMs = 30_000;

export interface RemoteWatchParts {
  readonly journal: Journal;
  readonly hub: LiveHub;
  readonly log: FastifyBaseLogger;
  /** How each pile is seen, for pages; or only what is written down of it, where that is read when it is needed. */
  readonly follows: 'views' | 'records';
  /** Records of probes may have changed. */
  probesChanged(): Promise<void>;
}

interface Pile {
  pile: PileRecord;
  batch: BatchRecord | null;
  claims: readonly ClaimRecord[];
  seen: PileSummary | null;
}

export class RemoteWatch implements PilePort {
  readonly #parts: RemoteWatchParts;
  readonly #piles = new Map<string, Pile>();
  readonly #waiting = new Map<string, () => void>();
  readonly #records: Coalesced;
  readonly #views: Coalesced;
  /** Probes and mappings: status messages change them often. */
  readonly #beside: Coalesced;
  #viewsChanged: Set<string> | 'all' = 'all';
  #line: { close(): Promise<void> } | undefined;
  #timer: NodeJS.Timeout | undefined;
  #closed = false;

  private constructor(parts: RemoteWatchParts) {
    this.#parts = parts;
    const failed = (error: unknown) => parts.log.warn({ err: error }, 'piles cannot be read; it is tried again');
    this.#records = coalesced(() => this.#readRecords(), 300, failed);
    this.#beside = coalesced(() => parts.probesChanged(), 1_000, failed);
    this.#views = coalesced(() => this.#readViews(), 100, failed);
  }

  static async open(parts: RemoteWatchParts): Promise<RemoteWatch> {
    const watch = new RemoteWatch(parts);
    await watch.#readRecords();
    await watch.#readViews();
    watch.#line = parts.journal.hear((news) => watch.#hear(news));
    watch.#timer = setInterval(() => watch.#hear({ topic: 'missed', about: '' }), lookAnywayMs).unref();
    return watch;
  }

  all(): WatchedPile[] {
    return [...this.#piles.values()].map((one) => this.#shown(one));
  }

  get(pileId: string): WatchedPile | undefined {
    const one = this.#piles.get(pileId);
    return one && this.#shown(one);
  }

  /** All as they were last seen, whether that is followed or not. */
  async everyPile(): Promise<WatchedPile[]> {
    if (this.#parts.follows === 'views') return this.all();
    const seen = new Map((await this.#parts.journal.views.list()).map(({ pileId, summary }) => [pileId, summary]));
    return [...this.#piles.values()].map((one) => this.#shown({ ...one, seen: seen.get(one.pile.id) ?? null }));
  }

  async reload(pileId: string): Promise<WatchedPile | undefined> {
    const { journal, hub } = this.#parts;
    const pile = await journal.piles.get(pileId);
    if (!pile) {
      this.#piles.delete(pileId);
      hub.publish('pile-gone', pileId, { id: pileId });
      await journal.views.forget(pileId);
      return undefined;
    }
    const batch = (await journal.batches.open(pileId)) ?? null;
    const claims = await journal.claims.list(pile.siteId);
    this.#piles.set(pileId, { pile, batch, claims, seen: this.#piles.get(pileId)?.seen ?? null });
    await this.#command(pile, { kind: 'reload' }, reloadWithinMs);
    await this.#readView([pileId]);
    return this.get(pileId);
  }

  /** Whoever watches did not hear of them: its piles are read anew. */
  async broughtIn(probes: Iterable<{ readonly site: string; readonly probe: string }>): Promise<void> {
    const names = new Set([...probes].map(({ site, probe }) => `${site}/${probe}`));
    for (const { pile, sources } of this.all()) {
      if (sources.some(({ claim }) => names.has(`${claim.site}/${claim.probe}`))) await this.reload(pile.id);
    }
  }

  async handleAlarm(alarmId: string, handling: AlarmHandling): Promise<boolean> {
    const alarm = await this.#parts.journal.alarms.get(alarmId);
    if (alarm && alarm.closedAtMs !== null) return false;
    const pileId = alarm?.pileId ?? this.#pileShowing(alarmId);
    return pileId !== undefined && this.#mustAnswer(pileId, { kind: 'handle', alarmId, handling });
  }

  /** One that its watcher could not keep yet is in no journal. */
  #pileShowing(alarmId: string): string | undefined {
    for (const [pileId, { seen }] of this.#piles) if (seen?.alarms.some(({ id }) => id === alarmId)) return pileId;
    return undefined;
  }

  async closeAlarms(pileId: string): Promise<void> {
    await this.#mustAnswer(pileId, { kind: 'close-alarms' });
  }

  troubles(): TroubledPile[] {
    return [...this.#piles.values()].flatMap(({ pile, seen }) => {
      if (!seen?.trouble) return [];
      const { code, judged, since, details } = seen.trouble;
      return [{ pileId: pile.id, name: pile.name, code, judged, sinceMs: Date.parse(since), rowCount: 1, details }];
    });
  }

  isSuppressed(alarmId: string): boolean {
    for (const { seen } of this.#piles.values()) {
      for (const { id, suppressedBy } of seen?.alarms ?? []) if (id === alarmId) return suppressedBy !== null;
    }
    return false;
  }

  silenceOf(siteId: string): Pick<SiteSilenceSeen, 'answer'> {
    const speaks = [...this.#piles.values()].some(
      ({ pile, seen }) => pile.siteId === siteId && Object.values(seen?.positions ?? {}).some(({ silent }) => !silent),
    );
    return { answer: speaks ? 'speaks' : 'silent' };
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearInterval(this.#timer);
    for (const answered of this.#waiting.values()) answered();
    await this.#line?.close();
    await this.#records.close();
    await this.#views.close();
    await this.#beside.close();
  }

  #shown({ pile, batch, claims, seen }: Pile): WatchedPile {
    const summary = () => this.#seenNow(pile, batch, seen);
    return {
      pile,
      batch,
      sources: pileSources(claims, pile.id, pile.siteId),
      standbys: standbyAir(claims, pile.id, pile.siteId),
      summary,
      openAlarms: () => summary().alarms.map(({ state }) => state),
      judged: async () => judgedFrom(await this.#parts.journal.views.judged(pile.id)),
    };
  }

  /** @throws {StoreError} when nobody watches the pile's site just now; then nothing was changed. */
  async #mustAnswer(pileId: string, command: PileCommand): Promise<boolean> {
    const pile = await this.#parts.journal.piles.get(pileId);
    if (!pile) return false;
    const answer = await this.#command(pile, command, answerWithinMs);
    await this.#readView([pileId]);
    if (answer !== undefined) return answer;
    throw new StoreError(`Cannot do this as somebody must watch site "${pile.siteId}": no worker answers for it now`);
  }

  /** @returns undefined when nobody answered in time; a reload is then still done once somebody takes the site. */
  async #command(pile: PileRecord, command: PileCommand, withinMs: number): Promise<boolean | undefined> {
    const { journal } = this.#parts;
    const id = randomId();
    const answered = new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, withinMs);
      this.#waiting.set(id, () => {
        clearTimeout(timer);
        resolve();
      });
    });
    try {
      await journal.commands.add({
        id,
        site: pile.siteId,
        pileId: pile.id,
        command,
        askedMs: Date.now(),
      });
      await answered;
      if (command.kind !== 'reload' && (await journal.commands.withdraw(id))) return undefined;
      const answer = await journal.commands.answerTo(id);
      return answer;
    } finally {
      this.#waiting.get(id)?.();
      this.#waiting.delete(id);
    }
  }

  #hear({ topic, about }: JournalNews): void {
    if (this.#closed) return;
    if (topic === 'answer') this.#waiting.get(about)?.();
    if (topic === 'views' && this.#parts.follows === 'views') {
      if (this.#viewsChanged !== 'all') for (const id of about.split(',')) this.#viewsChanged.add(id);
      this.#views.ask();
    }
    if (topic === 'changed' && about !== 'air_ahead')
      (about === 'probe' || about === 'mapping' ? this.#beside : this.#records).ask();
    if (topic !== 'missed') return;
    this.#viewsChanged = 'all';
    this.#records.ask();
    this.#views.ask();
    void this.#pickUpAnswers();
  }

  /** What was answered while no news came through. */
  async #pickUpAnswers(): Promise<void> {
    for (const [id, answered] of [...this.#waiting]) {
      const answer = await this.#parts.journal.commands.answerTo(id).catch(() => undefined);
      if (answer !== undefined) answered();
    }
  }

  async #readRecords(): Promise<void> {
    const { journal, hub } = this.#parts;
    const piles = await journal.piles.list();
    const open = (await journal.batches.list()).filter(({ endedAtMs }) => endedAtMs === null);
    const batchOf = new Map(open.map((batch) => [batch.pileId, batch]));
    const claimsOf = claimsBySite(await journal.claims.list(), piles);
    const gone = new Set(this.#piles.keys());
    for (const pile of piles) {
      gone.delete(pile.id);
      const seen = this.#piles.get(pile.id)?.seen ?? null;
      const batch = batchOf.get(pile.id) ?? null;
      this.#piles.set(pile.id, { pile, batch, claims: claimsOf.get(pile.siteId) ?? [], seen });
    }
    for (const id of gone) {
      this.#piles.delete(id);
      hub.publish('pile-gone', id, { id });
    }
    await this.#parts.probesChanged();
  }

  async #readViews(): Promise<void> {
    const changed = this.#viewsChanged;
    this.#viewsChanged = new Set();
    try {
      await this.#readView(changed === 'all' ? undefined : [...changed]);
    } catch (error) {
      this.#viewsChanged = 'all';
      throw error;
    }
  }

  async #readView(pileIds: readonly string[] | undefined): Promise<void> {
    if (this.#parts.follows === 'records') return;
    for (const { pileId, summary } of await this.#parts.journal.views.list(pileIds)) {
      const one = this.#piles.get(pileId);
      if (!one) continue; // its record comes with other news, and its view is then read
      if (summary === null) continue; // shown as it was until its watcher has written it anew
      one.seen = summary;
      this.#parts.hub.publishLater('pile', pileId, () => this.#seenNow(one.pile, one.batch, one.seen));
    }
  }

  /** As the watcher saw it; what a pile is called and what lies there is as written down meanwhile. */
  #seenNow(pile: PileRecord, batch: BatchRecord | null, seen: PileSummary | null): PileSummary {
    if (seen && (seen.batch?.id ?? null) === (batch?.id ?? null)) return { ...seen, name: pile.name };
    const rows = this.#parts.journal.unreadable.ofPile(pile.id).filter(({ table }) => table === 'batch');
    const shown = unseenPile(pile, batch);
    if (batch || rows.length === 0) return shown;
    // Nothing readable lies here: that is not the same as nothing.
    const details = rows.map(rowWords);
    const sinceMs = pile.createdAtMs;
    return withTrouble(shown, troubleView({ code: 'batch-unreadable', judged: false, sinceMs, rowCount: 1, details }));
  }
}
