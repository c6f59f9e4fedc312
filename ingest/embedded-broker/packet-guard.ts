/**
 * Stands between a connection and the parser: hands packets on as they came, but ends at the first that is longer than
 * its kind may be, and cuts the payload of a PUBLISH that is too long to be believed, so that nobody gathers it. It
 * goes by fixed headers (MQTT 3.1.1 section 2.2.3), and of a packet that is on its way it keeps a topic at most.
 */
import { cutPayload } from './cut-payload.ts';
import { FixedHeader, fixedHeaderBytes } from './fixed-header.ts';
import { costOf, longestFirstPacketBytes, longestOf, packetTypes } from './packet-limits.ts';

/** A packet for which the connection ends. */
export interface TooLong {
  readonly type: number;
  readonly lengthBytes: number;
}

export interface GuardLimits {
  /** Longer payloads are cut. */
  readonly payloadBytes: number;
  readonly firstPacketBytes?: number;
}

/** Of a PUBLISH whose payload may have to be cut. */
const longestHeldTopicBytes = 1024;
const nothing = Buffer.alloc(0);

/** Where in a packet the next byte lies; `start` is the variable header of a PUBLISH that may have to be cut. */
type At = 'header' | 'start' | 'body' | 'cut';

export class PacketGuard {
  readonly #payloadBytes: number;
  readonly #firstPacketBytes: number;
  readonly #header = new FixedHeader();
  #at: At = 'header';
  #isFirst = true;
  #cost = 0;
  /** Bytes of the packet that are still to come. */
  #toCome = 0;
  /** Held back: a fixed header that is not whole, or what `start` has gathered behind it. */
  #held: Buffer = nothing;
  /** To be handed on once its payload has gone by. */
  #cut: Buffer = nothing;

  // Of the chunk that is being passed:
  #pos = 0;
  #headerFrom = 0;
  /** What stands before it is in `#parts`, held or dropped. */
  #handedOn = 0;
  #parts: Uint8Array[] = [];

  constructor({ payloadBytes, firstPacketBytes = longestFirstPacketBytes }: GuardLimits) {
    this.#payloadBytes = payloadBytes;
    this.#firstPacketBytes = firstPacketBytes;
  }

  /** What the parser may have of this chunk: the very same bytes when nothing was cut or held back. */
  pass(chunk: Uint8Array): Uint8Array | TooLong {
    this.#pos = 0;
    this.#headerFrom = 0;
    this.#handedOn = 0;
    while (this.#pos < chunk.length) {
      const wrong = this.#step(chunk);
      if (wrong !== undefined) return wrong;
    }
    // Whether the packet of a header that is not whole may be handed on is not known yet.
    if (this.#at === 'header' && this.#header.bytes > 0) this.#holdHeader(chunk);
    return this.#passOn(chunk);
  }

  /** What came since this was asked last counts for, in short packets. */
  spent(): number {
    const before = this.#cost;
    this.#cost = 0;
    return before;
  }

  /** Goes on to the end of what `#at` says, or of the chunk. @returns what is wrong. */
  #step(chunk: Uint8Array): TooLong | undefined {
    if (this.#at === 'header') return this.#readHeader(chunk);
    if (this.#at === 'start') return this.#gatherStart(chunk);
    this.#letBy(chunk);
    return undefined;
  }

  #readHeader(chunk: Uint8Array): TooLong | undefined {
    const header = this.#header;
    while (this.#pos < chunk.length) {
      if (header.bytes === 0) this.#headerFrom = this.#pos;
      const isWhole = header.take(chunk[this.#pos] ?? 0);
      this.#pos += 1;
      if (isWhole) return this.#beginPacket(chunk);
    }
    return undefined;
  }

  /** The fixed header is whole. */
  #beginPacket(chunk: Uint8Array): TooLong | undefined {
    const { type, lengthBytes } = this.#header;
    const most = this.#isFirst ? Math.min(this.#firstPacketBytes, longestOf(type)) : longestOf(type);
    if (lengthBytes > most) return { type, lengthBytes };
    this.#isFirst = false;
    this.#cost += costOf(type, lengthBytes);
    this.#toCome = lengthBytes;
    if (type === packetTypes.publish && lengthBytes > this.#payloadBytes) {
      this.#at = 'start';
      this.#holdHeader(chunk);
      return undefined;
    }
    this.#at = lengthBytes === 0 ? 'header' : 'body';
    this.#header.clear();
    if (this.#held.length > 0) this.#parts.push(this.#held);
    this.#held = nothing;
    return undefined;
  }

  /** The header, as far as it has come, waits until it is known what becomes of its packet. */
  #holdHeader(chunk: Uint8Array): void {
    this.#parts.push(chunk.subarray(this.#handedOn, this.#headerFrom));
    this.#held = Buffer.concat([this.#held, chunk.subarray(this.#headerFrom, this.#pos)]);
    this.#handedOn = this.#pos;
  }

  /** Gathers the variable header of a long PUBLISH. */
  #gatherStart(chunk: Uint8Array): TooLong | undefined {
    const { type, lengthBytes, bytes } = this.#header;
    const variableBytes = this.#variableHeaderBytes() ?? 2;
    if (variableBytes > Math.min(lengthBytes, 2 + longestHeldTopicBytes + this.#idBytes()))
      return { type, lengthBytes };
    const to = Math.min(chunk.length, this.#pos + bytes + variableBytes - this.#held.length);
    this.#held = Buffer.concat([this.#held, chunk.subarray(this.#pos, to)]);
    this.#pos = to;
    this.#handedOn = to;
    const wanted = this.#variableHeaderBytes();
    if (wanted !== undefined && this.#held.length === bytes + wanted) this.#endStart(wanted);
    return undefined;
  }

  /** Bytes before the payload, once the topic's length is known. */
  #variableHeaderBytes(): number | undefined {
    const { bytes } = this.#header;
    if (this.#held.length < bytes + 2) return undefined;
    return 2 + this.#held.readUInt16BE(bytes) + this.#idBytes();
  }

  /** A packet identifier is there from QoS 1 on (section 3.3.2.2). */
  #idBytes(): number {
    return ((this.#held[0] ?? 0) & 0x06) === 0 ? 0 : 2;
  }

  /** The variable header of a long PUBLISH is whole, so its payload is let by or cut. */
  #endStart(variableBytes: number): void {
    const whole = this.#held;
    this.#held = nothing;
    this.#toCome = this.#header.lengthBytes - variableBytes;
    if (this.#toCome <= this.#payloadBytes) {
      this.#at = 'body';
      this.#parts.push(whole);
    } else {
      this.#at = 'cut';
      const variable = whole.subarray(this.#header.bytes);
      const payload = cutPayload(this.#toCome);
      const first = fixedHeaderBytes(whole[0] ?? 0, variable.length + payload.length);
      this.#cut = Buffer.concat([first, variable, payload]);
    }
    this.#header.clear();
  }

  /** The rest of a packet goes by: handed on, or dropped when its payload is cut. */
  #letBy(chunk: Uint8Array): void {
    const here = Math.min(this.#toCome, chunk.length - this.#pos);
    this.#pos += here;
    this.#toCome -= here;
    if (this.#at === 'cut') this.#handedOn = this.#pos;
    if (this.#toCome > 0) return;
    if (this.#at === 'cut') this.#parts.push(this.#cut);
    this.#cut = nothing;
    this.#at = 'header';
  }

  #passOn(chunk: Uint8Array): Uint8Array {
    if (this.#parts.length === 0 && this.#handedOn === 0) return chunk;
    const parts = [...this.#parts, chunk.subarray(this.#handedOn)];
    this.#parts = [];
    return Buffer.concat(parts);
  }
}
