/**
 * ingest/broker/packet-guard.ts: notices a packet that is too long before it is gathered in memory.
 *
 * Takes:  the bytes of one connection, chunk by chunk.
 * Gives:  the length of the first packet above the limit, from its fixed header (MQTT 3.1.1 section 2.2.3).
 * Never:  keeps or changes bytes.
 */
export function createPacketGuard(limitBytes: number): (chunk: Uint8Array) => number | undefined {
  let skip = 0; // bytes of the packet that are still to come
  let headerBytes = 0; // 0 = at a packet's first byte, 1.. = within its length
  let length = 0;

  return (chunk) => {
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
        continue;
      }
      length += (byte & 0x7f) * 128 ** (headerBytes - 1);
      headerBytes += 1;
      // Four length bytes at most; the broker's own parser ends a connection that sends more.
      if ((byte & 0x80) !== 0 && headerBytes <= 4) continue;
      if (length > limitBytes) return length;
      skip = length;
      headerBytes = 0;
    }
    return undefined;
  };
}
