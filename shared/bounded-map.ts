/** A map that forgets what was not asked for or set for longest, so that a flood of invented names cannot fill the memory. */
export class BoundedMap<Value> {
  readonly #map = new Map<string, Value>();
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  get(name: string): Value | undefined {
    const value = this.#map.get(name);
    if (value === undefined) return undefined;
    this.#map.delete(name);
    this.#map.set(name, value);
    return value;
  }

  /** As `get`, and it stays as old as it is. */
  peek(name: string): Value | undefined {
    return this.#map.get(name);
  }

  set(name: string, value: Value): void {
    this.#map.delete(name);
    this.#map.set(name, value);
    if (this.#map.size <= this.#most) return;
    for (const oldest of this.#map.keys()) {
      this.#map.delete(oldest);
      return;
    }
  }

  delete(name: string): void {
    this.#map.delete(name);
  }

  get size(): number {
    return this.#map.size;
  }

  /** The one longest ago first. */
  values(): IterableIterator<Value> {
    return this.#map.values();
  }
}
