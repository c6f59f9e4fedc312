/**
 * Lets messages go when the server clock has come to their time. It never runs ahead of the clock. What lies in its
 * past goes at once, as fast as the sink takes it.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Clock } from '../../shared/clock.ts';
import type { FarmMessage } from '../farm/play-farm.ts';
import type { Sink } from './sink.ts';

export interface PaceOptions {
  readonly clock: Clock;
  readonly signal?: AbortSignal | undefined;
  /** Called after each message with its time. */
  readonly onSent?: ((sendAtMs: number) => void) | undefined;
}

export interface Sent {
  readonly readings: number;
  readonly lastAtMs: number;
}

/** Longest sleep [ms of the machine], so that a stop is heard soon. */
const longestSleepMs = 200;

export async function paceOut(messages: Iterable<FarmMessage>, sink: Sink, options: PaceOptions): Promise<Sent> {
  const { clock, signal } = options;
  let readings = 0;
  let lastAtMs = 0;
  // A sink whose broker has gone takes nothing more; whoever stops the run does not wait for it.
  const stopped = new Promise<void>((resolve) => signal?.addEventListener('abort', () => resolve(), { once: true }));
  for (const message of messages) {
    for (let aheadMs = message.sendAtMs - clock.nowMs(); aheadMs > 0; aheadMs = message.sendAtMs - clock.nowMs()) {
      if (signal?.aborted) return { readings, lastAtMs };
      await sleep(Math.min(longestSleepMs, Math.max(1, aheadMs / clock.speed)));
    }
    if (signal?.aborted) break;
    await Promise.race([sink.send(message), stopped]);
    if (signal?.aborted) break;
    if (message.kind === 'reading') readings += 1;
    lastAtMs = message.sendAtMs;
    options.onSent?.(lastAtMs);
  }
  return { readings, lastAtMs };
}
