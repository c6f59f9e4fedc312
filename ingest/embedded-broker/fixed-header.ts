/** The beginning of a packet: its type with flags, and how many bytes follow (MQTT 3.1.1 section 2.2). */
export class FixedHeader {
  type = 0;
  /** Bytes of the packet behind this header. */
  lengthBytes = 0;
  /** Of the header itself, as far as it was read. */
  bytes = 0;

  /** Takes its next byte; after `clear` the first. @returns whether the header is whole. */
  take(byte: number): boolean {
    if (this.bytes === 0) {
      this.type = byte >> 4;
      this.lengthBytes = 0;
      this.bytes = 1;
      return false;
    }
    this.lengthBytes += (byte & 0x7f) * 128 ** (this.bytes - 1);
    this.bytes += 1;
    // Four length bytes at most; the broker's own parser ends a connection that sends more.
    return (byte & 0x80) === 0 || this.bytes > 4;
  }

  clear(): void {
    this.bytes = 0;
  }
}

/** @param first The packet's first byte, with its flags. */
export function fixedHeaderBytes(first: number, remainingBytes: number): Buffer {
  const bytes = [first];
  let rest = remainingBytes;
  do {
    bytes.push((rest % 128) | (rest > 127 ? 0x80 : 0));
    rest = Math.floor(rest / 128);
  } while (rest > 0);
  return Buffer.from(bytes);
}
