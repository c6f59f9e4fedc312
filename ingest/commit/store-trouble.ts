import type { IngestLog } from './inbound-source.ts';

/** What is wrong with the store, for the log and for health. */
export class StoreTrouble {
  readonly #log: IngestLog;
  #problem = '';

  constructor(log: IngestLog) {
    this.#log = log;
  }

  /** In a few words; empty while readings are kept. */
  get problem(): string {
    return this.#problem;
  }

  failed(error: unknown, retryAfterMs: number): void {
    this.#problem = error instanceof Error ? error.message : String(error);
    const fields = { err: error, retryAfterMs };
    this.#log.error(fields, 'readings could not be stored; nothing was acknowledged, trying again');
  }

  recovered(): void {
    this.#problem = '';
    this.#log.info({}, 'readings are stored again');
  }
}
