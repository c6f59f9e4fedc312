/**
 * Calls an address while all is well, so that the silence of the whole machine is noticed elsewhere. It never calls
 * while something is unwell: then its silence is the message.
 */

import { type Message, message } from '../../shared/messages/message.ts';
import { type PartHealth, partHealth } from '../../shared/part-health.ts';
import { oneLine } from './channels/channel.ts';
import { type GuardedOptions, guardedRequest } from './channels/guarded-request.ts';

const beatEveryMs = 60_000;
const timeoutMs = 10_000;

export interface HeartbeatParts {
  /** From the environment, which is trusted to name any address, else as an owner has set it. */
  readonly url: () => Promise<{ url: string; trusted: boolean } | undefined>;
  readonly allowed: () => Promise<readonly string[]>;
  /** Why all is not well; undefined while it is. */
  readonly unwell: () => Promise<Message | undefined>;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'>;
}

export type HeartbeatState = PartHealth<'off' | 'ok' | 'held' | 'failing'>;

const noAddress = partHealth('off', message('health.heartbeat.off'));

export class Heartbeat {
  readonly #parts: HeartbeatParts;
  #timer: NodeJS.Timeout | undefined;
  #closed = false;
  #state: HeartbeatState = noAddress;

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
      const problemText = oneLine(error instanceof Error ? error.message : String(error));
      this.#state = partHealth('failing', message('health.heartbeat.no-answer', { problemText }));
    }
    if (!this.#closed) this.start(beatEveryMs);
  }

  async #call(): Promise<HeartbeatState> {
    const { url, allowed, unwell, guard = {} } = this.#parts;
    const target = await url();
    if (target === undefined) return noAddress;
    const reason = await unwell();
    if (reason !== undefined) return partHealth('held', message('health.heartbeat.held', { reasonPart: reason }));
    const here = URL.canParse(target.url) ? new URL(target.url) : undefined;
    const own =
      target.trusted && here ? [`${here.hostname}:${here.port || (here.protocol === 'https:' ? '443' : '80')}`] : [];
    const options = { ...guard, allowed: [...(await allowed()), ...own], timeoutMs };
    const { status } = await guardedRequest({ method: 'GET', url: target.url, headers: {} }, options);
    if (status >= 200 && status < 300) return partHealth('ok', message('health.heartbeat.ok'));
    return partHealth('failing', message('health.heartbeat.refused', { statusText: String(status) }));
  }
}
