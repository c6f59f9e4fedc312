/** Numbers of a few bits each, one after the other in bytes, the lowest bit first. */

export class BitsOut {
  #bytes = new Uint8Array(4_096);
  #length = 0;
  #waiting = 0;
  #width = 0;

  put(value: number, width: number): void {
    this.#waiting |= value << this.#width;
    this.#width += width;
    while (this.#width >= 8) {
      this.#byte(this.#waiting & 0xff);
      this.#waiting >>>= 8;
      this.#width -= 8;
    }
  }

  /** All that was put, filled up to a whole byte; nothing may be put afterwards. */
  bytes(): Uint8Array {
    if (this.#width > 0) this.#byte(this.#waiting & 0xff);
    this.#width = 0;
    return this.#bytes.slice(0, this.#length);
  }

  #byte(value: number): void {
    if (this.#length === this.#bytes.length) {
      const longer = new Uint8Array(2 * this.#length);
      longer.set(this.#bytes);
      this.#bytes = longer;
    }
    this.#bytes[this.#length] = value;
    this.#length += 1;
  }
}

/** Reads what `BitsOut` wrote; zeros beyond the end. Hot. */
export class BitsIn {
  readonly #bytes: Uint8Array;
  #at = 0;
  #waiting = 0;
  #width = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  take(width: number): number {
    if (this.#width < width) this.#fill();
    const value = this.#waiting & ((1 << width) - 1);
    this.#waiting = (this.#waiting >>> width) | 0; // a small whole number is kept without allocating
    this.#width -= width;
    return value;
  }

  /** How many zeros come before the next one, which is passed over too; up to 23. */
  zeros(): number {
    this.#fill();
    const count = 31 - Math.clz32(this.#waiting & -this.#waiting);
    this.#waiting = (this.#waiting >>> (count + 1)) | 0;
    this.#width -= count + 1;
    return count;
  }

  #fill(): void {
    while (this.#width <= 24) {
      this.#waiting |= (this.#bytes[this.#at] ?? 0) << this.#width;
      this.#at += 1;
      this.#width += 8;
    }
  }
}
