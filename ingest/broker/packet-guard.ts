/**
 * ingest/broker/packet-guard.ts: counts the packets of a connection, and notices one that is too long before it is gathered.
 *
 * Takes:  the bytes of one connection, chunk by chunk.
 * Gives:  how many packets began in a chunk, whether a long one is on its way, and the length of the first that is
 *         too long, all from the fixed headers (MQTT 3.1.1 section 2.2.3).
 * Never:  keeps or changes bytes.
 */
export interface PacketGuard {
  /** The length of the first packet above the limit in force, if there is one. */
  see(chunk: Uint8Array): number | undefined;
  /** Packets that began since this was asked last. */
  begun(): number;
  /** Bytes still to come of the packet that is being gathered. */
  toCome(): number;
}

/** @param firstLimitBytes of the very first packet, by which a connection says who it is. */
export function createPacketGuard(limitBytes: number, firstLimitBytes: number = limitBytes): PacketGuard {
  let limitNowBytes = firstLimitBytes;
  let skip = 0; // bytes of the packet that are still to come
  let headerBytes = 0; // 0 = at a packet's first byte, 1.. = within its length
  let length = 0;
  let packets = 0;

  return {
    see(chunk) {
      let at = 0;
      while (at < chunk.length) {
        if (skip > 0) {
          const here = Math.min(skip, chunk.length - at);
          skip -= here;
          at += here;
          continue;
        }
        const byte = chunk[at] ?? 0;
        at += 1;
        if (headerBytes === 0) {
          headerBytes = 1;
          length = 0;
          packets += 1;
          continue;
        }
        length += (byte & 0x7f) * 128 ** (headerBytes - 1);
        headerBytes += 1;
        // Four length bytes at most; the broker's own parser ends a connection that sends more.
        if ((byte & 0x80) !== 0 && headerBytes <= 4) continue;
        if (length > limitNowBytes) return length;
        limitNowBytes = limitBytes;
        skip = length;
        headerBytes = 0;
      }
      return undefined;
    },
    begun() {
      const before = packets;
      packets = 0;
      return before;
    },
    toCome: () => skip,
  };
}
