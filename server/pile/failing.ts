/**
 * What goes wrong with one pile, and when it is tried again: by itself, so that no other pile waits for it.
 */
import { StoreError } from '../../shared/errors.ts';
import type { PileTroubleCode } from '../../shared/pile-trouble.ts';
import { UnreadableRowError } from '../../shared/store/unreadable.ts';

const firstPauseMs = 1_000;
const longestPauseMs = 60_000;
/** Once may be a moment's trouble of a store that is well again at the next try. */
const saidAfterFailures = 2;

/** The readings of a pile cannot be read back; what the journal holds of it may be whole. */
export class ReadBackError extends StoreError {}

/** One thing done for one pile that may fail again and again. */
export class Failing {
  #failures = 0;
  #sinceMs = 0;
  #retryAtMs = 0;
  #error: unknown;

  get failures(): number {
    return this.#failures;
  }

  get sinceMs(): number {
    return this.#sinceMs;
  }

  get error(): unknown {
    return this.#error;
  }

  /** Whether it has failed so that people should know. A row that cannot be read will not be readable in a moment. */
  get stands(): boolean {
    return this.#failures >= saidAfterFailures || (this.#failures > 0 && this.#error instanceof UnreadableRowError);
  }

  /** Whether it may be tried at this time of the machine. */
  mayTry(machineNowMs: number): boolean {
    return this.#failures === 0 || machineNowMs >= this.#retryAtMs;
  }

  /** @returns whether this is the first failure after it went well. */
  failed(error: unknown, machineNowMs: number, nowMs: number): boolean {
    this.#failures += 1;
    this.#error = error;
    this.#retryAtMs = machineNowMs + Math.min(longestPauseMs, firstPauseMs * 2 ** Math.min(10, this.#failures - 1));
    if (this.#failures === 1) this.#sinceMs = nowMs;
    return this.#failures === 1;
  }

  /** @returns whether it had failed before. */
  wentWell(): boolean {
    const had = this.#failures > 0;
    this.#failures = 0;
    this.#error = undefined;
    return had;
  }
}

export function codeOf(error: unknown): PileTroubleCode {
  if (error instanceof UnreadableRowError) {
    return error.row.table === 'batch' ? 'batch-unreadable' : 'records-unreadable';
  }
  return error instanceof ReadBackError ? 'readings-unreadable' : 'not-judged';
}

export const detailOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
