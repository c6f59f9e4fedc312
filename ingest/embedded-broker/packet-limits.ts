/**
 * How long a packet of each kind may be, and what it counts for at the pace of its sender. Known from the fixed header
 * alone, so that nothing of a packet is gathered or parsed before it is known to be short enough.
 */

/** Above this a PUBLISH ends the connection; up to it, it is read, refused and acknowledged without being kept. */
export const longestPublishBytes = 2 * 1024 * 1024;
/** Of the first packet, by which somebody says who they are: a CONNECT with a will fits easily. */
export const longestFirstPacketBytes = 16 * 1024;
/** A program that asks again for all it heard, in one packet: some 500 filters. */
const longestSubscribeBytes = 32 * 1024;

/** Control packet types (MQTT 3.1.1 section 2.2.1). */
export const packetTypes = { connect: 1, publish: 3, subscribe: 8, unsubscribe: 10 } as const;

/** Longest remaining length by type; what only a server sends, and what is reserved, has none. */
const longestBytes = new Map<number, number>([
  [packetTypes.connect, longestFirstPacketBytes],
  [packetTypes.publish, longestPublishBytes],
  [4, 2], // PUBACK (section 3.4.1)
  [5, 2], // PUBREC (section 3.5.1)
  [6, 2], // PUBREL (section 3.6.1)
  [7, 2], // PUBCOMP (section 3.7.1)
  [packetTypes.subscribe, longestSubscribeBytes],
  [packetTypes.unsubscribe, longestSubscribeBytes],
  [12, 0], // PINGREQ (section 3.12.1)
  [14, 0], // DISCONNECT (section 3.14.1)
]);

/** @param type The upper half of a packet's first byte. */
export function longestOf(type: number): number {
  return longestBytes.get(type) ?? 0;
}

/** Bytes that cost a reader as much as a short packet does. */
const bytesPerPacket = 4 * 1024;
/** A short filter: each is checked, matched and remembered by itself, or refused by itself. */
const bytesPerFilter = 16;

/** What a packet counts for, in short packets. */
export function costOf(type: number, lengthBytes: number): number {
  const isAsking = type === packetTypes.subscribe || type === packetTypes.unsubscribe;
  return 1 + Math.floor(lengthBytes / (isAsking ? bytesPerFilter : bytesPerPacket));
}
