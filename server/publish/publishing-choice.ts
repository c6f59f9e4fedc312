/**
 * What an owner wants published. It is asked for again every few seconds, as another process may have served the page on
 * which it was chosen.
 */
import type { FastifyBaseLogger } from 'fastify';
import { type HubChoice, type Publishing, publishingSchema } from '../../shared/contracts/published.ts';
import type { Journal } from '../../shared/store/journal.ts';

const setting = 'publishing';
const askAgainMs = 5_000;

export interface PublishingChoiceParts {
  readonly journal: Pick<Journal, 'settings'>;
  readonly log: Pick<FastifyBaseLogger, 'warn'>;
}

export class PublishingChoice {
  readonly #parts: PublishingChoiceParts;
  readonly #listeners: (() => void)[] = [];
  #now: Publishing | undefined;
  #timer: NodeJS.Timeout | undefined;
  #asking: Promise<void> = Promise.resolve();

  constructor(parts: PublishingChoiceParts) {
    this.#parts = parts;
  }

  async start(): Promise<void> {
    await this.#ask();
    this.#timer = setInterval(() => {
      this.#asking = this.#ask();
    }, askAgainMs);
    this.#timer.unref();
  }

  /** undefined until an owner chose anything. */
  now(): Publishing | undefined {
    return this.#now;
  }

  /** What hubs are offered; undefined until an owner chose, and nothing while there are no states that they could read. */
  hub(): HubChoice | undefined {
    return this.#now?.hub && (this.#now.states ? this.#now.hub : 'off');
  }

  /** @param change What is left out stays as it was. */
  async choose(change: Publishing): Promise<void> {
    const wanted = { ...this.#now, ...change };
    await this.#parts.journal.settings.write(setting, wanted);
    this.#take(wanted);
  }

  onChange(listener: () => void): void {
    this.#listeners.push(listener);
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
    await this.#asking;
  }

  /** What cannot be asked for stays as it was. */
  async #ask(): Promise<void> {
    try {
      this.#take(await this.#parts.journal.settings.read(setting, publishingSchema));
    } catch (error) {
      this.#parts.log.warn({ err: error }, 'what is to be published cannot be read; it stays as it was');
    }
  }

  #take(wanted: Publishing | undefined): void {
    if (JSON.stringify(wanted) === JSON.stringify(this.#now)) return;
    this.#now = wanted;
    for (const listener of this.#listeners) listener();
  }
}
