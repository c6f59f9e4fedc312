/**
 * Long work on the thread that everybody shares: after a few milliseconds it rests for as long as it worked. One round of the
 * event loop would not do, as each takes in a single new connection.
 */
const longestWorkMs = 5;
const longestRestMs = 20;

export class Breaks {
  #sinceMs = performance.now();

  /** Rests when it is time to. */
  async take(): Promise<void> {
    const workedMs = performance.now() - this.#sinceMs;
    if (workedMs < longestWorkMs) return;
    await new Promise((resolve) => setTimeout(resolve, Math.min(workedMs, longestRestMs)));
    this.#sinceMs = performance.now();
  }

  /** `items.map(make)` with breaks. */
  async map<Item, Made>(items: readonly Item[], make: (item: Item) => Made): Promise<Made[]> {
    const made: Made[] = [];
    for (const item of items) {
      made.push(make(item));
      await this.take();
    }
    return made;
  }
}
