/**
 * Thins readings older than the owner chose, quietly and by itself. It never thins anything while no age is chosen, or
 * the readings of a batch that still lies.
 */
import { setTimeout as pause } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import {
  type DownsampledOnce,
  downsampledOnceSchema,
  type KeepingAnswer,
  keptDaysSchema,
} from '../../shared/contracts/retention.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { UnreadableRowError } from '../../shared/store/unreadable.ts';
import { msPerDay } from '../../shared/units.ts';

const ageKey = 'keeping.days';
const lastKey = 'keeping.last';
/** Real time between two looks whether something has grown old enough. */
const lookEveryMs = 60_000;
/** A day's readings at a time, so that the disk is not stirred for every three hours that pass. */
const leastMs = msPerDay;
/** After a step it rests so many times as long as the step took: at most a sixth of one core. */
const restTimes = 5;
const leastRestMs = 20;
/** What a probe said shortly before a batch was laid belongs to its story. */
const beforeLaidMs = msPerDay;

export interface DownsamplingParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Pick<Journal, 'settings' | 'batches' | 'piles' | 'unreadable'>;
  readonly readings: Pick<ReadingsStore, 'downsample' | 'watermark' | 'weigh' | 'size'>;
  /** Where several processes share the readings, one of them thins; absent where this is the only one. */
  readonly isOurs?: () => boolean;
  /** Tests look more often. */
  readonly everyMs?: number;
}

type Running = NonNullable<KeepingAnswer['running']>;

export class Downsampling {
  readonly #parts: DownsamplingParts;
  #timer: NodeJS.Timeout | undefined;
  #working: Promise<void> = Promise.resolve();
  #closed = false;
  #removedInAll = 0;
  running: Running | null = null;
  problem: string | null = null;

  constructor(parts: DownsamplingParts) {
    this.#parts = parts;
    this.#next(0);
  }

  /** Readings downsampled since the server was opened. */
  get removedInAll(): number {
    return this.#removedInAll;
  }

  async keptDays(): Promise<number | null> {
    const stored = await this.#parts.journal.settings.get(ageKey);
    return keptDaysSchema
      .nullable()
      .catch(null)
      .parse(stored === undefined ? null : Number(stored));
  }

  /** Kept before it is followed; a run that goes on ends at its next step, and begins anew with the other age. */
  async choose(keptDays: number | null): Promise<void> {
    await this.#parts.journal.settings.set(ageKey, keptDays === null ? 'never' : String(keptDays));
    this.problem = null;
    this.#next(0);
  }

  async last(): Promise<DownsampledOnce | null> {
    return (
      (await this.#parts.journal.settings.read(lastKey, downsampledOnceSchema.nullable()).catch(unlessAway)) ?? null
    );
  }

  /** The oldest batch that still lies and reaches behind the age. */
  async heldBy(keptDays: number): Promise<KeepingAnswer['heldBy']> {
    const { clock, journal } = this.#parts;
    const lying = (await journal.batches.list()).filter(({ endedAtMs }) => endedAtMs === null);
    const unread = journal.unreadable.list().find(({ table, partly }) => table === 'batch' && !partly);
    if (unread) throw new UnreadableRowError(unread); // it may still lie, and its readings are then wanted
    const oldest = lying.sort((a, b) => a.startedAtMs - b.startedAtMs)[0];
    if (!oldest || oldest.startedAtMs - beforeLaidMs >= clock.nowMs() - keptDays * msPerDay) return null;
    const pile = await journal.piles.get(oldest.pileId);
    return {
      batchId: oldest.id,
      pileId: oldest.pileId,
      pileName: pile?.name ?? oldest.pileId,
      startedAt: toInstant(oldest.startedAtMs),
    };
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    await this.#working;
  }

  #next(afterMs: number): void {
    if (this.#closed) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#working = this.#working.then(() => this.#look()).then(() => this.#next(this.#parts.everyMs ?? lookEveryMs));
    }, afterMs);
    this.#timer.unref();
  }

  async #look(): Promise<void> {
    if (this.#parts.isOurs?.() === false) return;
    try {
      const beforeMs = await this.#dueMs();
      if (beforeMs !== null) await this.#run(beforeMs);
      this.problem = null;
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
      this.#parts.log.error({ err: error }, 'readings could not be downsampled; tried again later');
    } finally {
      this.running = null;
    }
  }

  /** The time before which readings are to be downsampled now; null when there is not a day of them. */
  async #dueMs(): Promise<number | null> {
    const { clock } = this.#parts;
    const keptDays = await this.keptDays();
    if (keptDays === null) return null;
    const held = await this.heldBy(keptDays);
    const oldEnoughMs = clock.nowMs() - keptDays * msPerDay;
    const beforeMs = held ? Date.parse(held.startedAt) - beforeLaidMs : oldEnoughMs;
    const last = await this.last();
    const reachedMs = last ? Math.max(Date.parse(last.before), 0) : 0;
    return beforeMs - reachedMs >= leastMs ? beforeMs : null;
  }

  async #run(beforeMs: number): Promise<void> {
    const { clock, journal, log, readings } = this.#parts;
    const startedAt = toInstant(clock.nowMs());
    const before = toInstant(beforeMs);
    const chosen = await this.keptDays();
    const rows = (await readings.weigh(0, beforeMs)).rows;
    const { bytes } = await readings.size();
    let removed = 0;
    for (let done = false; !done; ) {
      if (this.#closed || this.#parts.isOurs?.() === false || (await this.keptDays()) !== chosen) return;
      const fromMs = performance.now();
      const step = await readings.downsample(beforeMs);
      removed += step.removed;
      this.#removedInAll += step.removed;
      this.running = { startedAt, before, removed, share: rows === 0 ? 1 : Math.min(1, removed / rows) };
      done = step.done;
      if (!done) await pause(Math.max(leastRestMs, restTimes * (performance.now() - fromMs)));
    }
    const freedBytes = bytes - (await readings.size()).bytes;
    const once: DownsampledOnce = { startedAt, endedAt: toInstant(clock.nowMs()), before, removed, freedBytes };
    await journal.settings.write(lastKey, once);
    log.info({ before, removed, freedBytes }, 'old readings are downsampled');
  }
}

/** When the last run ended is only shown, so a value that cannot be read is as good as none. */
function unlessAway(error: unknown): null {
  if (error instanceof UnreadableRowError) return null;
  throw error;
}
