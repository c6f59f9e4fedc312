/**
 * Calls an address while all is well, so that the silence of the whole machine is noticed elsewhere. It never calls
 * while something is unwell: then its silence is the message.
 */

import { oneLine } from './channels/channel.ts';
import { type GuardedOptions, guardedRequest } from './channels/guarded-request.ts';

const beatEveryMs = 60_000;
const timeoutMs = 10_000;

export interface HeartbeatParts {
  /** From the environment, which is trusted to name any address, else as an owner has set it. */
  readonly url: () => Promise<{ url: string; trusted: boolean } | undefined>;
  readonly allowed: () => Promise<readonly string[]>;
  /** Why all is not well; undefined while it is. */
  readonly unwell: () => Promise<string | undefined>;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'>;
}

export interface HeartbeatState {
  readonly state: 'off' | 'ok' | 'held' | 'failing';
  readonly detail: string;
}

export class Heartbeat {
  readonly #parts: HeartbeatParts;
  #timer: NodeJS.Timeout | undefined;
  #closed = false;
  #state: HeartbeatState = { state: 'off', detail: 'no address is set' };

  constructor(parts: HeartbeatParts) {
    this.#parts = parts;
  }

  get state(): HeartbeatState {
    return this.#state;
  }

  start(afterMs = 2_000): void {
    this.#timer = setTimeout(() => void this.#beat(), afterMs);
  }

  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
  }

  async #beat(): Promise<void> {
    try {
      this.#state = await this.#call();
    } catch (error) {
      const detail = oneLine(error instanceof Error ? error.message : String(error));
      this.#state = { state: 'failing', detail: `the address does not answer: ${detail}` };
    }
    if (!this.#closed) this.start(beatEveryMs);
  }

  async #call(): Promise<HeartbeatState> {
    const { url, allowed, unwell, guard = {} } = this.#parts;
    const target = await url();
    if (target === undefined) return { state: 'off', detail: 'no address is set' };
    const reason = await unwell();
    if (reason !== undefined) return { state: 'held', detail: `not called, as ${reason}` };
    const here = URL.canParse(target.url) ? new URL(target.url) : undefined;
    const own =
      target.trusted && here ? [`${here.hostname}:${here.port || (here.protocol === 'https:' ? '443' : '80')}`] : [];
    const options = { ...guard, allowed: [...(await allowed()), ...own], timeoutMs };
    const { status } = await guardedRequest({ method: 'GET', url: target.url, headers: {} }, options);
    if (status >= 200 && status < 300) return { state: 'ok', detail: 'the address is called every minute' };
    return { state: 'failing', detail: `the address answered HTTP ${status}` };
  }
}
