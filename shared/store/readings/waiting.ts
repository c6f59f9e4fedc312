/** The readings of one series that are safe in the inbox but not flushed yet. */
export class Waiting {
  #atMs: number[] = [];
  #values: number[] = [];
  #sorted = true;
  /** Made at the first look-up by time; most series never have one, as their readings come in order. */
  #byTime: Map<number, number> | null = null;

  get count(): number {
    return this.#atMs.length;
  }

  add(atMs: number, value: number, newest: boolean): void {
    if (!newest) this.#sorted = false;
    this.#atMs.push(atMs);
    this.#values.push(value);
    this.#byTime?.set(atMs, value);
  }

  valueAt(atMs: number): number | undefined {
    if (this.#byTime === null) {
      this.#byTime = new Map();
      for (const [index, time] of this.#atMs.entries()) this.#byTime.set(time, this.#values[index] as number);
    }
    return this.#byTime.get(atMs);
  }

  /** Time and value of each, in the order added. */
  *all(): Generator<readonly [atMs: number, value: number]> {
    for (let index = 0; index < this.#atMs.length; index += 1) {
      yield [this.#atMs[index] as number, this.#values[index] as number];
    }
  }

  /** Forgets what was added after `count` was the number waiting, in the order added. */
  cutTo(count: number): void {
    this.#atMs.length = count;
    this.#values.length = count;
    this.#byTime = null;
  }

  /** Both columns, oldest first. To be read at once, not kept. */
  sorted(): { readonly atMs: readonly number[]; readonly values: readonly number[] } {
    if (!this.#sorted) {
      const order = this.#atMs.map((_, index) => index);
      const atMs = this.#atMs;
      const values = this.#values;
      order.sort((a, b) => (atMs[a] as number) - (atMs[b] as number));
      this.#atMs = order.map((index) => atMs[index] as number);
      this.#values = order.map((index) => values[index] as number);
      this.#sorted = true;
    }
    return { atMs: this.#atMs, values: this.#values };
  }
}

/** Index of the first element that is at least `atMs`, in a sorted list. */
export function firstFrom(sortedMs: readonly number[], atMs: number): number {
  let low = 0;
  let high = sortedMs.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sortedMs[middle] as number) < atMs) low = middle + 1;
    else high = middle;
  }
  return low;
}
