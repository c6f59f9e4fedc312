/**
 * Gathers readings into batches, and lets a message be acknowledged only after its commit. It never gives a ticket back
 * whose readings are not kept; never drops a batch because the store failed.
 */
import { StoreError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';
import type { AppendResult, ReadingsStore } from '../../shared/store/readings-store.ts';

export interface CommitQueueOptions<Ticket> {
  readonly store: Pick<ReadingsStore, 'append'>;
  acknowledge(tickets: readonly Ticket[]): void;
  committed(readings: readonly Reading[], result: AppendResult): void;
  /** The store kept nothing; the same batch is tried again after the time named. */
  failed(error: unknown, retryAfterMs: number): void;
  recovered(): void;
  /** Most readings of one commit. */
  readonly batchReadings?: number;
  /** Most readings and messages waiting; beyond it `hasRoom` is false. */
  readonly capacity?: number;
  /** Most bytes of messages waiting: each stays in memory, as it came, until it is acknowledged. */
  readonly capacityBytes?: number;
  readonly firstRetryMs?: number;
  readonly longestRetryMs?: number;
}

export interface CommitQueue<Ticket> {
  /** @param messageBytes What the message that the ticket stands for takes up. */
  add(readings: readonly Reading[], ticket: Ticket, messageBytes?: number): void;
  hasRoom(): boolean;
  /** Calls back once, as soon as there is room. */
  whenRoom(callback: () => void): void;
  /** Readings and messages that wait for a commit. */
  waiting(): { readings: number; messages: number };
  /** Whether the store refused the batch that is being tried. */
  failing(): boolean;
  /** Resolves when nothing waits, after the time named, or once the store fails; true when all is kept. */
  drain(withinMs: number): Promise<boolean>;
  /** Gives up what still waits; those messages stay unacknowledged. */
  stop(): void;
}

interface Batch<Ticket> {
  readings: Reading[];
  tickets: Ticket[];
  bytes: number;
}

export function createCommitQueue<Ticket>(options: CommitQueueOptions<Ticket>): CommitQueue<Ticket> {
  const { batchReadings = 5_000, capacity = 50_000, capacityBytes = 64 * 1024 * 1024 } = options;
  const { firstRetryMs = 250, longestRetryMs = 10_000 } = options;
  const batches: Batch<Ticket>[] = []; // oldest first; the last one is being filled
  let readingsWaiting = 0;
  let messagesWaiting = 0;
  let bytesWaiting = 0;
  let working = false;
  let scheduled = false;
  let failing = false;
  let stopped = false;
  let retry: { timer: NodeJS.Timeout; go: () => void } | undefined;
  const forRoom: (() => void)[] = [];

  function add(readings: readonly Reading[], ticket: Ticket, messageBytes = 0): void {
    let batch = batches.at(-1);
    // The first batch is in the store's hands while working, so it takes no more.
    if (batch === undefined || (working && batches.length === 1) || batch.readings.length >= batchReadings) {
      batch = { readings: [], tickets: [], bytes: 0 };
      batches.push(batch);
    }
    for (const reading of readings) batch.readings.push(reading);
    batch.tickets.push(ticket);
    batch.bytes += messageBytes;
    readingsWaiting += readings.length;
    messagesWaiting += 1;
    bytesWaiting += messageBytes;
    schedule();
  }

  /** The end of this turn of the event loop: everything the sockets had ready shares one commit. */
  function schedule(): void {
    if (scheduled || working || stopped) return;
    scheduled = true;
    setImmediate(() => {
      scheduled = false;
      void work();
    });
  }

  async function work(): Promise<void> {
    if (working) return;
    working = true;
    while (!stopped) {
      const batch = batches[0];
      if (batch === undefined) break;
      // A batch without readings holds only messages that were refused or said something else.
      const result = batch.readings.length === 0 ? undefined : await appendUntilKept(batch.readings);
      if (stopped) break;
      batches.shift();
      readingsWaiting -= batch.readings.length;
      messagesWaiting -= batch.tickets.length;
      bytesWaiting -= batch.bytes;
      if (result !== undefined) options.committed(batch.readings, result);
      options.acknowledge(batch.tickets);
      while (forRoom.length > 0 && hasRoom()) forRoom.shift()?.();
    }
    working = false;
  }

  async function appendUntilKept(readings: readonly Reading[]): Promise<AppendResult | undefined> {
    for (let retryMs = firstRetryMs; !stopped; retryMs = Math.min(2 * retryMs, longestRetryMs)) {
      try {
        const result = await options.store.append(readings);
        if (failing) options.recovered();
        failing = false;
        return result;
      } catch (error) {
        failing = true;
        // A store that names a time is not asked before it.
        const askedMs = error instanceof StoreError ? (error.retryAfterMs ?? 0) : 0;
        const waitMs = Math.max(retryMs, askedMs);
        options.failed(error, waitMs);
        await new Promise<void>((go) => {
          retry = { timer: setTimeout(go, waitMs), go };
        });
      }
    }
    return undefined;
  }

  function hasRoom(): boolean {
    return readingsWaiting < capacity && messagesWaiting < capacity && bytesWaiting < capacityBytes;
  }

  return {
    add,
    hasRoom,
    whenRoom(callback) {
      if (hasRoom()) callback();
      else forRoom.push(callback);
    },
    waiting: () => ({ readings: readingsWaiting, messages: messagesWaiting }),
    failing: () => failing,
    async drain(withinMs) {
      const untilMs = performance.now() + withinMs;
      while (messagesWaiting > 0 && !stopped && !failing && performance.now() < untilMs) {
        await new Promise((resolve) => setTimeout(resolve, 10));
      }
      return messagesWaiting === 0;
    },
    stop() {
      stopped = true;
      if (retry !== undefined) {
        clearTimeout(retry.timer);
        retry.go();
      }
    },
  };
}
