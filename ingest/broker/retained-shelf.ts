/**
 * ingest/broker/retained-shelf.ts: which retained messages the broker keeps in its memory.
 *
 * Takes:  topic, size and speaker of each message that asks to be retained.
 * Gives:  whether it may be: so many topics, so many bytes, and of one key so many topics.
 */
export interface RetainedShelf {
  mayRetain(topic: string, payloadBytes: number, keyId: string | null): boolean;
}

const mostBytes = 16 * 1024 * 1024;
const mostPerKey = 1_000;

export function createRetainedShelf(mostTopics: number): RetainedShelf {
  const kept = new Map<string, { bytes: number; keyId: string | null }>();
  const perKey = new Map<string, number>();
  let bytes = 0;

  function take(topic: string): void {
    const before = kept.get(topic);
    if (before === undefined) return;
    kept.delete(topic);
    bytes -= before.bytes;
    if (before.keyId !== null) perKey.set(before.keyId, (perKey.get(before.keyId) ?? 1) - 1);
  }

  return {
    mayRetain(topic, payloadBytes, keyId) {
      if (payloadBytes === 0) {
        take(topic); // an empty one takes away what was kept [MQTT-3.3.1-10]
        return true;
      }
      const before = kept.get(topic);
      if (bytes - (before?.bytes ?? 0) + payloadBytes > mostBytes) return false;
      if (before === undefined && kept.size >= mostTopics) return false;
      if (before?.keyId !== keyId && keyId !== null && (perKey.get(keyId) ?? 0) >= mostPerKey) return false;
      take(topic);
      kept.set(topic, { bytes: payloadBytes, keyId });
      bytes += payloadBytes;
      if (keyId !== null) perKey.set(keyId, (perKey.get(keyId) ?? 0) + 1);
      return true;
    },
  };
}
