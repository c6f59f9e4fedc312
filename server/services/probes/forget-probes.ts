/**
 * Forgets probes with all they said: readings and rollups, what the journal knows of them beside claims, their status at
 * the broker. Never one that serves a pile or once did: its readings belong to the record of that pile's batches.
 */
import { setTimeout as pause } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import type { Ingest } from '../../../ingest/ingest.ts';
import { ConflictError } from '../../../shared/errors.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ProbeName, ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { LiveHub } from '../live/live-hub.ts';
import type { ProbeBook } from './probe-book.ts';

export interface ForgetParts {
  readonly log: FastifyBaseLogger;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly probes: ProbeBook;
  readonly hub: LiveHub;
  readonly root: string;
  readonly ingest: Pick<Ingest, 'keep'>;
  /** Other processes hear these probes too: they are asked to forget them as well. */
  readonly askOthers?: (probes: readonly ProbeName[]) => Promise<void>;
}

/** After a step it rests so many times as long as the step took, so that readings are taken in meanwhile. */
const restTimes = 2;
const leastRestMs = 5;
const againMs = 60_000;

export class ForgetProbes {
  readonly #parts: ForgetParts;
  readonly #end = new AbortController();
  #working: Promise<void> = Promise.resolve();

  constructor(parts: ForgetParts) {
    this.#parts = parts;
    this.#goOn(); // with what an earlier run was cut short of
  }

  /** Those that no pile has or ever had. */
  async forgettable<Name extends ProbeName>(probes: readonly Name[]): Promise<Name[]> {
    const served = new Set((await this.#parts.journal.claims.list()).map(nameOf));
    return probes.filter((probe) => !served.has(nameOf(probe)));
  }

  /**
   * Once it resolves no answer holds anything of them; their rows go by and by.
   * @throws {ConflictError} when one of them serves a pile or once did, or the database takes no rows away.
   */
  async forget(probes: readonly ProbeName[]): Promise<void> {
    const { readings } = this.#parts;
    if (readings.cannotForget !== undefined) throw new ConflictError(readings.cannotForget, '');
    const may = await this.forgettable(probes);
    const [kept] = probes.filter((probe) => !may.includes(probe));
    if (kept !== undefined) {
      throw new ConflictError(message('problem.probe-served', { probeText: nameOf(kept) }), '');
    }
    await this.forgetHere(may);
    await this.#parts.askOthers?.(may);
  }

  /** What this process and the stores know, without asking whether it may go. */
  async forgetHere(probes: readonly ProbeName[]): Promise<void> {
    const { journal, readings, probes: book, hub, ingest, root } = this.#parts;
    if (probes.length === 0) return;
    const step = await readings.forget(probes);
    await journal.probes.remove(probes);
    for (const { site, probe } of probes) {
      // A retained status would bring it back with the next connection to an outside broker.
      if (book.get(site, probe)?.online != null) ingest.keep(`${root}/${site}/${probe}/status`, '');
      book.forget(site, probe);
    }
    hub.publish('probes', '', book.counts);
    if (!step.done) this.#goOn();
  }

  async close(): Promise<void> {
    this.#end.abort();
    await this.#working;
  }

  #goOn(): void {
    this.#working = this.#working.then(() => this.#allSteps());
  }

  async #allSteps(): Promise<void> {
    const { readings, log } = this.#parts;
    const { signal } = this.#end;
    while (!signal.aborted) {
      const startedMs = performance.now();
      let restMs = leastRestMs;
      try {
        if ((await readings.forget([])).done) return;
        restMs = Math.max(leastRestMs, restTimes * (performance.now() - startedMs));
      } catch (error) {
        log.error({ err: error }, 'rows of forgotten probes could not be taken away; tried again later');
        restMs = againMs;
      }
      await pause(restMs, undefined, { signal, ref: false }).catch(() => undefined);
    }
  }
}

const nameOf = ({ site, probe }: ProbeName) => `${site}/${probe}`;
