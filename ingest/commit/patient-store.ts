import { StoreError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';
import type { AppendResult, ReadingsStore } from '../../shared/store/readings-store.ts';

export interface PatientStoreOptions {
  readonly store: Pick<ReadingsStore, 'append'>;
  /** The store kept nothing; the same readings are tried again after the time named. */
  failed(error: unknown, retryAfterMs: number): void;
  recovered(): void;
  readonly firstRetryMs?: number;
  readonly longestRetryMs?: number;
}

/** A readings store that tries again until it has kept what it was given, longer apart each time. */
export class PatientStore {
  readonly #options: PatientStoreOptions;
  #failing = false;
  #stopped = false;
  #retry: { readonly timer: NodeJS.Timeout; readonly go: () => void } | undefined;

  constructor(options: PatientStoreOptions) {
    this.#options = options;
  }

  /** Whether the store refused what is being tried. */
  get failing(): boolean {
    return this.#failing;
  }

  /** @returns undefined once `stop` was called and they are not kept. */
  async append(readings: readonly Reading[]): Promise<AppendResult | undefined> {
    const { store, failed, recovered, firstRetryMs = 250, longestRetryMs = 10_000 } = this.#options;
    for (let retryMs = firstRetryMs; !this.#stopped; retryMs = Math.min(2 * retryMs, longestRetryMs)) {
      try {
        const result = await store.append(readings);
        if (this.#failing) recovered();
        this.#failing = false;
        return result;
      } catch (error) {
        this.#failing = true;
        // A store that names a time is not asked before it.
        const askedMs = error instanceof StoreError ? (error.retryAfterMs ?? 0) : 0;
        const waitMs = Math.max(retryMs, askedMs);
        failed(error, waitMs);
        await this.#wait(waitMs);
      }
    }
    return undefined;
  }

  stop(): void {
    this.#stopped = true;
    if (this.#retry === undefined) return;
    clearTimeout(this.#retry.timer);
    this.#retry.go();
  }

  #wait(ms: number): Promise<void> {
    return new Promise((go) => {
      this.#retry = { timer: setTimeout(go, ms), go };
    });
  }
}
