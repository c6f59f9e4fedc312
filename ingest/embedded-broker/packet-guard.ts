/**
 * Stands between a connection and the parser: hands packets on as they came, but ends at the first that is longer than
 * its kind may be, and cuts the payload of a PUBLISH that is too long to be believed, so that nobody gathers it. It
 * goes by fixed headers (MQTT 3.1.1 section 2.2.3), and of a packet that is on its way it keeps a topic at most.
 */
import { cutPayload } from './cut-payload.ts';
import { costOf, longestFirstPacketBytes, longestOf, packetTypes } from './packet-limits.ts';

/** A packet for which the connection ends. */
export interface TooLong {
  readonly type: number;
  readonly lengthBytes: number;
}

export interface PacketGuard {
  /** What the parser may have of this chunk: the very same bytes when nothing was cut or held back. */
  pass(chunk: Uint8Array): Uint8Array | TooLong;
  /** What came since this was asked last counts for, in short packets. */
  spent(): number;
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

export function createPacketGuard(limits: GuardLimits): PacketGuard {
  const { payloadBytes, firstPacketBytes = longestFirstPacketBytes } = limits;
  let at: At = 'header';
  let isFirst = true;
  let headerBytes = 0;
  let type = 0;
  let lengthBytes = 0;
  /** Bytes of the packet that are still to come. */
  let toCome = 0;
  /** Held back: a fixed header that is not whole, or what `start` has gathered behind it. */
  let held: Buffer = nothing;
  /** To be handed on once its payload has gone by. */
  let cut: Buffer = nothing;
  let cost = 0;

  /** Takes one byte of the fixed header. @returns whether it is whole. */
  function header(byte: number): boolean {
    if (headerBytes === 0) {
      type = byte >> 4;
      lengthBytes = 0;
      headerBytes = 1;
      return false;
    }
    lengthBytes += (byte & 0x7f) * 128 ** (headerBytes - 1);
    headerBytes += 1;
    // Four length bytes at most; the broker's own parser ends a connection that sends more.
    return (byte & 0x80) === 0 || headerBytes > 4;
  }

  /** The fixed header is whole. @returns where in its packet the next byte lies, or what is wrong with it. */
  function begin(): At | TooLong {
    const most = isFirst ? Math.min(firstPacketBytes, longestOf(type)) : longestOf(type);
    if (lengthBytes > most) return { type, lengthBytes };
    isFirst = false;
    cost += costOf(type, lengthBytes);
    toCome = lengthBytes;
    if (type === packetTypes.publish && lengthBytes > payloadBytes) return 'start';
    return toCome === 0 ? 'header' : 'body';
  }

  /** A packet identifier is there from QoS 1 on (section 3.3.2.2). */
  const idBytes = () => (((held[0] ?? 0) & 0x06) === 0 ? 0 : 2);

  /** Bytes before the payload, once the topic's length is known. */
  function variableHeaderBytes(): number | undefined {
    if (held.length < headerBytes + 2) return undefined;
    return 2 + held.readUInt16BE(headerBytes) + idBytes();
  }

  /** Gathers the variable header of a long PUBLISH from `chunk`. @returns how far it got, or what is wrong. */
  function start(chunk: Uint8Array, from: number): number | TooLong {
    const variableBytes = variableHeaderBytes() ?? 2;
    if (variableBytes > Math.min(lengthBytes, 2 + longestHeldTopicBytes + idBytes())) return { type, lengthBytes };
    const wanted = headerBytes + variableBytes;
    const to = Math.min(chunk.length, from + wanted - held.length);
    held = Buffer.concat([held, chunk.subarray(from, to)]);
    return to;
  }

  /** The variable header of a long PUBLISH is whole. @returns what may be handed on now. */
  function startIsWhole(variableBytes: number): Buffer {
    const whole = held;
    held = nothing;
    toCome = lengthBytes - variableBytes;
    if (toCome <= payloadBytes) {
      at = 'body';
      headerBytes = 0;
      return whole;
    }
    const variable = whole.subarray(headerBytes);
    const payload = cutPayload(toCome);
    cut = Buffer.concat([fixedHeader(whole[0] ?? 0, variable.length + payload.length), variable, payload]);
    at = 'cut';
    headerBytes = 0;
    return nothing;
  }

  return {
    pass(chunk) {
      const parts: Uint8Array[] = [];
      let handedOn = 0; // what stands before it is in `parts`, held or dropped
      let headerFrom = 0;
      let pos = 0;
      while (pos < chunk.length) {
        if (at === 'body' || at === 'cut') {
          const here = Math.min(toCome, chunk.length - pos);
          pos += here;
          toCome -= here;
          if (at === 'cut') handedOn = pos;
          if (toCome > 0) continue;
          if (at === 'cut') parts.push(cut);
          cut = nothing;
          at = 'header';
        } else if (at === 'start') {
          const got = start(chunk, pos);
          if (typeof got === 'object') return got;
          pos = got;
          handedOn = pos;
          const variableBytes = variableHeaderBytes();
          if (variableBytes !== undefined && held.length === headerBytes + variableBytes)
            parts.push(startIsWhole(variableBytes));
        } else {
          if (headerBytes === 0) headerFrom = pos;
          const isWhole = header(chunk[pos] ?? 0);
          pos += 1;
          if (!isWhole) continue;
          const next = begin();
          if (typeof next === 'object') return next;
          at = next;
          if (next === 'start') {
            parts.push(chunk.subarray(handedOn, headerFrom));
            held = Buffer.concat([held, chunk.subarray(headerFrom, pos)]);
            handedOn = pos;
          } else {
            headerBytes = 0;
            if (held.length > 0) parts.push(held);
            held = nothing;
          }
        }
      }
      if (at === 'header' && headerBytes > 0) {
        // Whether its packet may be handed on is not known yet.
        parts.push(chunk.subarray(handedOn, headerFrom));
        held = Buffer.concat([held, chunk.subarray(headerFrom)]);
        handedOn = chunk.length;
      }
      if (parts.length === 0 && handedOn === 0) return chunk;
      parts.push(chunk.subarray(handedOn));
      return Buffer.concat(parts);
    },
    spent() {
      const before = cost;
      cost = 0;
      return before;
    },
  };
}

/** @param first The packet's first byte, with its flags. */
function fixedHeader(first: number, remainingBytes: number): Buffer {
  const bytes = [first];
  let rest = remainingBytes;
  do {
    bytes.push((rest % 128) | (rest > 127 ? 0x80 : 0));
    rest = Math.floor(rest / 128);
  } while (rest > 0);
  return Buffer.from(bytes);
}
