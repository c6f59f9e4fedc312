/** How much waits for a commit, and who waits for room in it. */

export interface BacklogBounds {
  /** Most readings, and most messages. */
  readonly capacity: number;
  /** Most bytes of messages: each stays in memory, as it came, until it is acknowledged. */
  readonly capacityBytes: number;
}

export class Backlog {
  readonly #bounds: BacklogBounds;
  readonly #forRoom: (() => void)[] = [];
  readings = 0;
  messages = 0;
  #bytes = 0;

  constructor(bounds: BacklogBounds) {
    this.#bounds = bounds;
  }

  hasRoom(): boolean {
    const { capacity, capacityBytes } = this.#bounds;
    return this.readings < capacity && this.messages < capacity && this.#bytes < capacityBytes;
  }

  /** Calls back once, as soon as there is room. */
  whenRoom(callback: () => void): void {
    if (this.hasRoom()) callback();
    else this.#forRoom.push(callback);
  }

  add(readings: number, messages: number, bytes: number): void {
    this.readings += readings;
    this.messages += messages;
    this.#bytes += bytes;
  }

  remove(readings: number, messages: number, bytes: number): void {
    this.add(-readings, -messages, -bytes);
  }

  /** Calls back those who waited, one after the other, while there is room. */
  letIn(): void {
    while (this.#forRoom.length > 0 && this.hasRoom()) this.#forRoom.shift()?.();
  }
}
