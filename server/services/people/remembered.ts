/**
 * What the journal said a moment ago, so that a page with forty requests asks it once. It never remembers longer than
 * two seconds, or that something is not there.
 */
const rememberMs = 2_000;
const mostRemembered = 5_000;

export class Remembered<Value> {
  readonly #nowMs: () => number;
  readonly #values = new Map<string, { value: Value; askedAtMs: number }>();

  constructor(nowMs: () => number) {
    this.#nowMs = nowMs;
  }

  async get(key: string, ask: () => Promise<Value | undefined>): Promise<Value | undefined> {
    const known = this.#values.get(key);
    const now = this.#nowMs();
    // A clock that was set back must not make a memory last.
    if (known && now - known.askedAtMs < rememberMs && now >= known.askedAtMs) return known.value;
    const value = await ask();
    if (value === undefined) this.#values.delete(key);
    else this.#keep(key, value, now);
    return value;
  }

  /** Something newer about what is remembered already; its age stays. */
  set(key: string, value: Value): void {
    const known = this.#values.get(key);
    if (known) known.value = value;
  }

  clear(): void {
    this.#values.clear();
  }

  #keep(key: string, value: Value, askedAtMs: number): void {
    if (this.#values.size >= mostRemembered) this.#values.clear();
    this.#values.set(key, { value, askedAtMs });
  }
}
