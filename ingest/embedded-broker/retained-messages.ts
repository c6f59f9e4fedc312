/** Which retained messages the broker keeps in its memory. */
export interface RetainedMessages {
  mayRetain(topic: string, payloadBytes: number, keyId: string | null): boolean;
}

const mostBytes = 16 * 1024 * 1024;
const mostTopicsOfKey = 1_000;
const mostBytesOfKey = 2 * 1024 * 1024;
/** What a topic costs beside its own bytes and those of its message. */
const perTopicBytes = 200;

interface Held {
  topics: number;
  bytes: number;
}

export function createRetainedMessages(mostTopics: number): RetainedMessages {
  const kept = new Map<string, { bytes: number; keyId: string | null }>();
  const ofKeys = new Map<string, Held>();
  const all: Held = { topics: 0, bytes: 0 };

  function change(keyId: string | null, topics: 1 | -1, bytes: number): void {
    all.topics += topics;
    all.bytes += bytes;
    if (keyId === null) return;
    const held = ofKeys.get(keyId) ?? { topics: 0, bytes: 0 };
    held.topics += topics;
    held.bytes += bytes;
    if (held.topics > 0) ofKeys.set(keyId, held);
    else ofKeys.delete(keyId);
  }

  function take(topic: string): void {
    const before = kept.get(topic);
    if (before === undefined) return;
    kept.delete(topic);
    change(before.keyId, -1, -before.bytes);
  }

  return {
    mayRetain(topic, payloadBytes, keyId) {
      if (payloadBytes === 0) {
        take(topic); // an empty one takes away what was kept [MQTT-3.3.1-10]
        return true;
      }
      const bytes = perTopicBytes + Buffer.byteLength(topic) + payloadBytes;
      const before = kept.get(topic);
      const [lessTopics, lessBytes] = before === undefined ? [0, 0] : [1, before.bytes];
      if (all.bytes - lessBytes + bytes > mostBytes || all.topics - lessTopics >= mostTopics) return false;
      if (keyId !== null) {
        const isOwn = before?.keyId === keyId;
        const held = ofKeys.get(keyId) ?? { topics: 0, bytes: 0 };
        if (held.topics - (isOwn ? 1 : 0) >= mostTopicsOfKey) return false;
        if (held.bytes - (isOwn ? lessBytes : 0) + bytes > mostBytesOfKey) return false;
      }
      take(topic);
      kept.set(topic, { bytes, keyId });
      change(keyId, 1, bytes);
      return true;
    },
  };
}
