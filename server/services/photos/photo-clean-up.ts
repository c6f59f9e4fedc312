/**
 * Takes away photos that no entry names, a few at a time.
 *
 * A photo is sent before the entry that names it, and a phone may be out of reach in between: only after a week is it
 * certain that the entry was given up. It never takes away one that any version of an entry names, a withdrawn one
 * included.
 */
import type { Clock } from '../../../shared/clock.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { msPerDay } from '../../../shared/units.ts';
import type { PhotoStore } from './photo-store.ts';

export interface PhotoCleanUpParts {
  readonly clock: Clock;
  readonly log: { info(fields: object, message: string): void; warn(fields: object, message: string): void };
  readonly journal: Pick<Journal, 'photos'>;
  readonly photos: Pick<PhotoStore, 'remove'>;
}

export const unnamedForMs = 7 * msPerDay;
const atATime = 20;
const firstAfterMs = 10 * 60_000;
const everyMs = 6 * 60 * 60_000;
const pauseMs = 1_000;

export class PhotoCleanUp {
  readonly #parts: PhotoCleanUpParts;
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<unknown> = Promise.resolve();
  #closed = false;

  constructor(parts: PhotoCleanUpParts) {
    this.#parts = parts;
  }

  start(): void {
    this.#next(firstAfterMs);
  }

  /** One step. @returns how many pictures went. */
  async step(): Promise<number> {
    const { clock, journal, photos, log } = this.#parts;
    const digests = await journal.photos.forgetUnnamed(clock.nowMs() - unnamedForMs, atATime);
    await photos.remove(digests);
    if (digests.length > 0) log.info({ count: digests.length }, 'took away photos that no entry names');
    return digests.length;
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    await this.#running;
  }

  #next(afterMs: number): void {
    if (this.#closed) return;
    this.#timer = setTimeout(() => {
      this.#running = this.step().then(
        (count) => this.#next(count > 0 ? pauseMs : everyMs),
        (error) => {
          this.#parts.log.warn({ err: error }, 'photos without an entry could not be looked for; later again');
          this.#next(everyMs);
        },
      );
    }, afterMs).unref();
  }
}
