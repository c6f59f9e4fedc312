/**
 * Changes on their way to every open page. It never lets a slow page hold back the others: what it missed is replaced
 * by what is newest.
 */
import type { z } from 'zod';
import type { LiveEventName, liveEventSchemas } from '../../../shared/contracts/live.ts';

export type LiveData<Name extends LiveEventName> = z.infer<(typeof liveEventSchemas)[Name]>;

export interface LiveListener {
  /** Takes ready text of server-sent events. @returns false while its line is full. */
  write(text: string): boolean;
  /** The server closes. */
  end(): void;
}

const gatherMs = 250;

export class LiveHub {
  readonly #listeners = new Set<LiveListener>();
  readonly #waiting = new Map<string, () => string>();
  /** How many wait of each name that is reported in part only. */
  readonly #someOf = new Map<LiveEventName, number>();
  #timer: NodeJS.Timeout | undefined;

  get listenerCount(): number {
    return this.#listeners.size;
  }

  add(listener: LiveListener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** @param key What the event is about: a newer event of the same name and key replaces one still waiting. */
  publish<Name extends LiveEventName>(name: Name, key: string, data: LiveData<Name>): void {
    this.publishLater(name, key, () => data);
  }

  /** The same for what changes often: `data` is only asked for when it is sent. */
  publishLater<Name extends LiveEventName>(name: Name, key: string, data: () => LiveData<Name>): void {
    if (this.#listeners.size === 0) return;
    this.#waiting.set(`${name} ${key}`, () => eventText(name, data()));
    this.#timer ??= setTimeout(() => this.#send(), gatherMs);
  }

  /** The same, but of more than `most` things of this name at a time the rest is reported by `instead`. */
  publishSome<Name extends LiveEventName>(
    name: Name,
    key: string,
    data: () => LiveData<Name>,
    most: number,
    instead: () => void,
  ): void {
    if (this.#listeners.size === 0) return;
    const count = this.#someOf.get(name) ?? 0;
    const isWaiting = this.#waiting.has(`${name} ${key}`);
    if (!isWaiting && count >= most) {
      instead();
      return;
    }
    if (!isWaiting) this.#someOf.set(name, count + 1);
    this.publishLater(name, key, data);
  }

  close(): void {
    clearTimeout(this.#timer);
    for (const listener of this.#listeners) listener.end();
    this.#listeners.clear();
  }

  #send(): void {
    this.#timer = undefined;
    const text = [...this.#waiting.values()].map((text) => text()).join('');
    this.#waiting.clear();
    this.#someOf.clear();
    for (const listener of this.#listeners) listener.write(text);
  }
}

export function eventText<Name extends LiveEventName>(name: Name, data: LiveData<Name>): string {
  return `event: ${name}\ndata: ${JSON.stringify(data)}\n\n`;
}
