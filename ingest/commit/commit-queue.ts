/**
 * Gathers readings into batches, and lets a message be acknowledged only after its commit. It never gives a ticket back
 * whose readings are not kept; never drops a batch because the store failed.
 */
import type { Reading } from '../../shared/reading.ts';
import type { AppendResult } from '../../shared/store/readings-store.ts';
import { Backlog, type BacklogBounds } from './backlog.ts';
import { PatientStore, type PatientStoreOptions } from './patient-store.ts';

/** Beyond its bounds (50,000 readings and messages, 64 MB) `hasRoom` is false. */
export interface CommitQueueOptions<Ticket> extends PatientStoreOptions, Partial<BacklogBounds> {
  acknowledge(tickets: readonly Ticket[]): void;
  committed(readings: readonly Reading[], result: AppendResult): void;
  /** Most readings of one commit. */
  readonly batchReadings?: number;
}

interface Batch<Ticket> {
  readings: Reading[];
  tickets: Ticket[];
  bytes: number;
}

export class CommitQueue<Ticket> {
  readonly #options: Pick<CommitQueueOptions<Ticket>, 'acknowledge' | 'committed'>;
  readonly #batchReadings: number;
  readonly #store: PatientStore;
  readonly #backlog: Backlog;
  readonly #batches: Batch<Ticket>[] = []; // oldest first; the last one is being filled
  #working = false;
  #scheduled = false;
  #stopped = false;

  constructor(options: CommitQueueOptions<Ticket>) {
    const { capacity = 50_000, capacityBytes = 64 * 1024 * 1024, batchReadings = 5_000 } = options;
    this.#options = options;
    this.#batchReadings = batchReadings;
    this.#store = new PatientStore(options);
    this.#backlog = new Backlog({ capacity, capacityBytes });
  }

  /** @param messageBytes What the message that the ticket stands for takes up. */
  add(readings: readonly Reading[], ticket: Ticket, messageBytes = 0): void {
    const batch = this.#batchToFill();
    for (const reading of readings) batch.readings.push(reading);
    batch.tickets.push(ticket);
    batch.bytes += messageBytes;
    this.#backlog.add(readings.length, 1, messageBytes);
    this.#schedule();
  }

  hasRoom(): boolean {
    return this.#backlog.hasRoom();
  }

  /** Calls back once, as soon as there is room. */
  whenRoom(callback: () => void): void {
    this.#backlog.whenRoom(callback);
  }

  /** Readings and messages that wait for a commit. */
  waiting(): { readings: number; messages: number } {
    const { readings, messages } = this.#backlog;
    return { readings, messages };
  }

  /** Whether the store refused the batch that is being tried. */
  failing(): boolean {
    return this.#store.failing;
  }

  /** Resolves when nothing waits, after the time named, or once the store fails; true when all is kept. */
  async drain(withinMs: number): Promise<boolean> {
    const untilMs = performance.now() + withinMs;
    while (this.#backlog.messages > 0 && !this.#stopped && !this.#store.failing && performance.now() < untilMs) {
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    return this.#backlog.messages === 0;
  }

  /** Gives up what still waits; those messages stay unacknowledged. */
  stop(): void {
    this.#stopped = true;
    this.#store.stop();
  }

  #batchToFill(): Batch<Ticket> {
    const last = this.#batches.at(-1);
    // The first batch is in the store's hands while working, so it takes no more.
    const isTaken = this.#working && this.#batches.length === 1;
    if (last !== undefined && !isTaken && last.readings.length < this.#batchReadings) return last;
    const batch = { readings: [], tickets: [], bytes: 0 };
    this.#batches.push(batch);
    return batch;
  }

  /** The end of this turn of the event loop: everything the sockets had ready shares one commit. */
  #schedule(): void {
    if (this.#scheduled || this.#working || this.#stopped) return;
    this.#scheduled = true;
    setImmediate(() => {
      this.#scheduled = false;
      void this.#work();
    });
  }

  async #work(): Promise<void> {
    if (this.#working) return;
    this.#working = true;
    while (!this.#stopped) {
      const batch = this.#batches[0];
      if (batch === undefined) break;
      // A batch without readings holds only messages that were refused or said something else.
      const result = batch.readings.length === 0 ? undefined : await this.#store.append(batch.readings);
      if (this.#stopped) break;
      this.#batches.shift();
      this.#backlog.remove(batch.readings.length, batch.tickets.length, batch.bytes);
      if (result !== undefined) this.#options.committed(batch.readings, result);
      this.#options.acknowledge(batch.tickets);
      this.#backlog.letIn();
    }
    this.#working = false;
  }
}
