import { StoreError } from '../../errors.ts';
import { influxError } from './influx-error.ts';

/** What is tried against one database, and what its failures mean for what is tried next. */
export class Attempts {
  readonly #where: string;
  #notBeforeMs = 0;
  #isClosed = false;

  /** @param where The database as failures name it. */
  constructor(where: string) {
    this.#where = where;
  }

  /** @returns false when it was closed before. */
  close(): boolean {
    const wasOpen = !this.#isClosed;
    this.#isClosed = true;
    return wasOpen;
  }

  /** @throws {StoreError} once closed. */
  mustBeOpen(): void {
    if (this.#isClosed) throw closedError();
  }

  /** @throws {StoreError} while the database has asked to be left alone. */
  mustNotBeAskedToWait(attempt: string): void {
    const waitMs = this.#notBeforeMs - Date.now();
    if (waitMs <= 0) return;
    throw new StoreError(
      `Cannot ${attempt} as ${this.#where} asked not to be asked for ${Math.ceil(waitMs / 1000)} s more`,
      { retryAfterMs: waitMs },
    );
  }

  /** @throws {StoreError} that names the attempt; RangeErrors are the caller's own. */
  async run<Result>(attempt: string, run: () => Promise<Result>): Promise<Result> {
    try {
      return await run();
    } catch (cause) {
      if (cause instanceof RangeError) throw cause;
      throw this.failed(attempt, cause);
    }
  }

  /** When it asked us to wait, nothing is tried before. */
  failed(attempt: string, cause: unknown): StoreError {
    if (this.#isClosed) return closedError();
    const error = influxError(attempt, this.#where, cause);
    if (error.retryAfterMs !== undefined) this.#notBeforeMs = Date.now() + error.retryAfterMs;
    return error;
  }
}

function closedError(): StoreError {
  return new StoreError('Cannot use the readings as the store is closed');
}
