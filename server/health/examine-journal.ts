/**
 * Reads the whole journal now and then, slowly, so that a damaged record is known before somebody misses it.
 */
import { setTimeout as pause } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import type { Journal } from '../../shared/store/journal.ts';
import { rowWords } from '../../shared/store/unreadable.ts';

const everyMs = 6 * 3_600_000;
const restMs = 20;

export class ExamineJournal {
  readonly #parts: { readonly journal: Pick<Journal, 'examine' | 'unreadable'>; readonly log: FastifyBaseLogger };
  #timer: NodeJS.Timeout | undefined;
  #closed = false;
  #working: Promise<void> = Promise.resolve();
  #stop = () => {};

  constructor(parts: { journal: Pick<Journal, 'examine' | 'unreadable'>; log: FastifyBaseLogger }) {
    this.#parts = parts;
  }

  start(): void {
    const { journal, log } = this.#parts;
    const say = (row: Parameters<typeof rowWords>[0]) =>
      log.error({ row }, `a record cannot be read: ${rowWords(row)}`);
    for (const row of journal.unreadable.list()) say(row);
    this.#stop = journal.unreadable.onMet(say);
    this.#next(0);
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.#stop();
    await this.#working;
  }

  #next(afterMs: number): void {
    if (this.#closed) return;
    this.#timer = setTimeout(() => {
      this.#working = this.#examine().finally(() => this.#next(everyMs));
    }, afterMs).unref();
  }

  async #examine(): Promise<void> {
    const rest = async () => {
      await pause(restMs);
      return !this.#closed;
    };
    await this.#parts.journal.examine(rest).catch((error) => {
      if (!this.#closed)
        this.#parts.log.warn({ err: error }, 'the journal could not be read through; tried again later');
    });
  }
}
