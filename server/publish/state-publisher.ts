/**
 * Publishes how each pile stands, retained, for programs.
 *
 * It says a pile again only where something changed, and at most so often, so that a busy farm does not flood its
 * broker; and every ten minutes, as a broker that was started anew may have forgotten. Piles that others watch are
 * theirs to publish.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { Ingest } from '../../ingest/ingest.ts';
import { BoundedMap } from '../../shared/bounded-map.ts';
import type { Clock } from '../../shared/clock.ts';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import { stateTopic } from '../../shared/published-topics.ts';
import type { PileRecord } from '../../shared/store/journal.ts';
import type { Phase } from '../../shared/warning.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import type { HubAnnouncer } from './hub-announcer.ts';
import type { PileEvents } from './pile-events.ts';
import { pileState } from './pile-state.ts';
import type { PublishingChoice } from './publishing-choice.ts';

const roundMs = 1_000;
/** Most piles of one round: to sum one up takes a moment. */
const mostOfRound = 50;
/** Of one pile, where no alarm changed. */
const calmMs = 10_000;
const againMs = 600_000;
const mostGone = 1_000;

export interface StatePublisherParts {
  readonly root: string;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly watch: Pick<PileMonitor, 'all' | 'get'>;
  readonly ingest: Pick<Ingest, 'say' | 'health'>;
  readonly choice: PublishingChoice;
  readonly events: Pick<PileEvents, 'phaseChanged'>;
  readonly introductions: Pick<HubAnnouncer, 'follow' | 'gone' | 'forget'>;
}

interface Said {
  /** Without the time at which it was worked out. */
  readonly what: string;
  /** [machine time] */
  readonly atMs: number;
}

export class StatePublisher {
  readonly #parts: StatePublisherParts;
  /** Piles to be summed up, and whether at once. */
  readonly #due = new Map<string, boolean>();
  readonly #said = new Map<string, Said>();
  readonly #phases = new Map<string, { readonly batch: string; readonly phase: Phase }>();
  /** The site of each pile that was removed: a broker that was away has not heard of it. */
  readonly #gone = new BoundedMap<{ readonly id: string; readonly site: string }>(mostGone);
  #timer: NodeJS.Timeout | undefined;
  #wasDown = false;

  constructor(parts: StatePublisherParts) {
    this.#parts = parts;
    parts.choice.onChange(() => this.#allDue());
  }

  start(): void {
    this.#allDue();
    this.#timer = setInterval(() => this.#round(), roundMs);
    this.#timer.unref();
  }

  /** A pile was evaluated. Cheap. */
  shown(pileId: string, alarmsChanged: boolean): void {
    this.#due.set(pileId, alarmsChanged || (this.#due.get(pileId) ?? false));
  }

  gone({ id, siteId }: PileRecord): void {
    this.#due.delete(id);
    this.#forget(id);
    if (this.#parts.choice.now() === undefined) return;
    this.#gone.set(id, { id, site: siteId });
    this.#takeBack(siteId, id);
  }

  /** A hub came up, or a broker that may have forgotten. */
  introduceAnew(site?: string): void {
    const { watch, introductions } = this.#parts;
    if (site === undefined) introductions.forget();
    for (const { pile } of watch.all()) {
      if (site !== undefined && pile.siteId !== site) continue;
      introductions.forget(pile.id);
      this.#due.set(pile.id, true);
    }
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
  }

  #allDue(): void {
    for (const { pile } of this.#parts.watch.all()) this.#due.set(pile.id, true);
  }

  #round(): void {
    if (this.#parts.choice.now() === undefined) {
      this.#due.clear();
      return;
    }
    this.#sayAgain();
    const nowMs = Date.now();
    let count = 0;
    for (const [id, atOnce] of this.#due) {
      if (count >= mostOfRound) return;
      if (!atOnce && nowMs - (this.#said.get(id)?.atMs ?? 0) < calmMs) continue;
      this.#due.delete(id);
      count += 1;
      this.#publish(id, nowMs);
    }
  }

  /** What the broker may have forgotten while it was away, and what was said long ago. */
  #sayAgain(): void {
    const isDown = this.#parts.ingest.health().state === 'down';
    if (this.#wasDown && !isDown) {
      this.#said.clear();
      for (const { id, site } of this.#gone.values()) this.#takeBack(site, id);
      this.introduceAnew();
    }
    this.#wasDown = isDown;
    const beforeMs = Date.now() - againMs;
    for (const [id, { atMs }] of this.#said) {
      if (atMs >= beforeMs) continue;
      this.#due.set(id, true);
      this.#parts.introductions.forget(id);
    }
  }

  #publish(id: string, nowMs: number): void {
    const { watch, choice, clock, log } = this.#parts;
    const one = watch.get(id);
    if (one === undefined) {
      this.#forget(id);
      return;
    }
    try {
      const summary = one.summary();
      this.#parts.introductions.follow(one.pile, summary);
      this.#followPhase(one.pile, summary);
      const { at, ...state } = pileState(summary, clock.nowMs());
      const isWanted = choice.now()?.states === true;
      const what = isWanted ? JSON.stringify(state) : '';
      const before = this.#said.get(id);
      if (before?.what === what && nowMs - before.atMs < againMs) return;
      this.#gone.delete(id);
      this.#said.set(id, { what, atMs: nowMs });
      this.#say(one.pile.siteId, id, isWanted ? JSON.stringify({ ...state, at }) : '');
    } catch (error) {
      log.warn({ err: error, pile: id }, 'how a pile stands cannot be published');
    }
  }

  /** First from hubs, which would go on reading what is no more. */
  #takeBack(siteId: string, id: string): void {
    this.#parts.introductions.gone({ id, siteId });
    this.#say(siteId, id, '');
  }

  /** It is gone, or another process has it now. */
  #forget(id: string): void {
    this.#said.delete(id);
    this.#parts.introductions.forget(id);
    this.#phases.delete(id);
  }

  #followPhase(pile: PileRecord, { batch, tone }: PileSummary): void {
    const before = this.#phases.get(pile.id);
    // Nobody has judged it yet, which is no phase.
    if (batch === null || tone === 'unknown') return;
    this.#phases.set(pile.id, { batch: batch.id, phase: batch.phase });
    if (before?.batch !== batch.id || before.phase === batch.phase) return;
    this.#parts.events.phaseChanged(pile, batch.id, before.phase, batch.phase, this.#parts.clock.nowMs());
  }

  #say(site: string, id: string, text: string): void {
    const { root, ingest } = this.#parts;
    ingest.say(site, { topic: stateTopic(root, site, id), text, retain: true });
  }
}
