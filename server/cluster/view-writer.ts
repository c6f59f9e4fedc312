/**
 * Keeps in the journal how each pile was last seen, for processes that do not watch it. It never holds up a look: what
 * cannot be written is written with the next.
 */
import type { FastifyBaseLogger } from 'fastify';
import { LostLeaseError } from '../../shared/errors.ts';
import type { Journal, Lease, PileViewChange } from '../../shared/store/journal.ts';
import type { Judged, OwnPile } from '../pile/watched-pile.ts';
import { bandData } from './view-text.ts';

/** Real time between writes. */
const roundMs = 250;
/** A pile without a changed alarm is written again after this, times the thousands of piles here. */
const calmMs = 1_000;
const atOnce = 200;

interface Waiting {
  readonly one: OwnPile;
  readonly lease: Lease;
  readonly dueMs: number;
  readonly course: boolean;
}

export class ViewWriter {
  readonly #parts: { readonly journal: Journal; readonly log: FastifyBaseLogger; lost(lease: Lease): void };
  readonly #waiting = new Map<string, Waiting>();
  readonly #writtenMs = new Map<string, number>();
  #timer: NodeJS.Timeout | undefined;
  #writing: Promise<void> = Promise.resolve();
  #troubled = false;
  #closed = false;

  constructor(parts: { journal: Journal; log: FastifyBaseLogger; lost(lease: Lease): void }) {
    this.#parts = parts;
  }

  looked(one: OwnPile, lease: Lease, what: { course: boolean; alarms: boolean }): void {
    const { id } = one.pile;
    const before = this.#waiting.get(id);
    const calm = (this.#writtenMs.get(id) ?? 0) + calmMs * Math.max(1, this.#writtenMs.size / 1_000);
    const dueMs = Math.min(before?.dueMs ?? Number.POSITIVE_INFINITY, what.alarms ? 0 : calm);
    this.#waiting.set(id, { one, lease, dueMs, course: what.course || (before?.course ?? false) });
    if (!this.#closed) this.#timer ??= setTimeout(() => void this.flush(), roundMs);
  }

  /** Writes what is due; everything of one pile when it is named. */
  flush(pileId?: string): Promise<void> {
    this.#writing = this.#writing.then(() => this.#write(pileId));
    return this.#writing;
  }

  /** Forgets what waits of a site: it is another's by now. */
  leave(site: string): void {
    for (const [id, { lease }] of this.#waiting) if (lease.site === site) this.#waiting.delete(id);
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    await this.#writing;
    await this.#write(undefined, true);
  }

  async #write(pileId: string | undefined, all = false): Promise<void> {
    clearTimeout(this.#timer);
    const nowMs = Date.now();
    const bySite = new Map<string, [string, Waiting][]>();
    for (const [id, waiting] of this.#waiting) {
      if (!all && id !== pileId && waiting.dueMs > nowMs) continue;
      const group = bySite.get(waiting.lease.site) ?? [];
      bySite.set(waiting.lease.site, group);
      if (group.length < atOnce) group.push([id, waiting]);
    }
    for (const group of bySite.values()) await this.#writeSite(group, nowMs);
    this.#timer = undefined;
    if (this.#waiting.size > 0 && !this.#closed) this.#timer = setTimeout(() => void this.flush(), roundMs);
  }

  async #writeSite(group: readonly [string, Waiting][], nowMs: number): Promise<void> {
    const lease = group[0]?.[1].lease;
    if (!lease) return;
    try {
      const views: PileViewChange[] = [];
      for (const [pileId, { one, course }] of group) {
        const { assessment, band } = await judgedOf(one);
        views.push({ pileId, summary: one.summary(), assessment, ...(course && { band: bandData(band) }) });
      }
      for (const [id, waiting] of group) if (this.#waiting.get(id) === waiting) this.#waiting.delete(id);
      await this.#parts.journal.views.keep(lease, views);
      for (const [id] of group) this.#writtenMs.set(id, nowMs);
      this.#troubled = false;
    } catch (error) {
      if (error instanceof LostLeaseError) {
        this.#parts.lost(lease);
        return;
      }
      for (const [id, waiting] of group) {
        const newer = this.#waiting.get(id);
        this.#waiting.set(id, newer ? { ...newer, course: newer.course || waiting.course } : waiting);
      }
      if (!this.#troubled)
        this.#parts.log.warn({ err: error }, 'how piles were seen cannot be kept; it is tried again');
      this.#troubled = true;
    }
  }
}

/** A pile that cannot be assessed is shown without an assessment, and keeps no other from being shown. */
async function judgedOf(one: OwnPile): Promise<Judged> {
  try {
    return await one.judged();
  } catch {
    return { assessment: null, band: null };
  }
}
