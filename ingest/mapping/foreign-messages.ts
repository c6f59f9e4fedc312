/**
 * The last message of each foreign topic, for making and trying mappings. It never grows beyond its bounds, whatever is
 * published.
 */
export interface ForeignMessage {
  readonly atMs: number;
  readonly topic: string;
  readonly payload: string;
  /** It lay in the broker for nobody knows how long. */
  readonly isRetained: boolean;
  /** That its sender has a key for. */
  readonly site: string | undefined;
  /** What is read of it counts for this site alone. */
  readonly confinedTo?: string | undefined;
  /** A mapping or a family of devices knows what to make of it, be it a refusal, or nothing as somebody said. */
  readonly isUsed: boolean;
}

const topicsKept = 200;
const charactersKept = 1_000_000;
/** Longer payloads are no readings of a probe, and a part of one could not be tried. */
const longestPayload = 16_384;

export interface ForeignMessages {
  keep(message: ForeignMessage): void;
  /** A mapping reads it now, as it stands. */
  use(topic: string): void;
  list(): ForeignMessage[];
}

export function createForeignMessages(): ForeignMessages {
  const byTopic = new Map<string, ForeignMessage>(); // oldest first
  let characters = 0;

  function forget(topic: string): void {
    const old = byTopic.get(topic);
    if (old === undefined) return;
    characters -= old.topic.length + old.payload.length;
    byTopic.delete(topic);
  }

  return {
    keep(message) {
      const { topic, payload } = message;
      if (topic.startsWith('$') || topic.length > 512) return; // $ topics are the broker's own
      if (payload === '' || payload.length > longestPayload) return;
      forget(topic);
      byTopic.set(topic, message);
      characters += topic.length + payload.length;
      for (const oldest of byTopic.keys()) {
        if (byTopic.size <= topicsKept && characters <= charactersKept) break;
        forget(oldest);
      }
    },
    use(topic) {
      const known = byTopic.get(topic);
      if (known !== undefined) byTopic.set(topic, { ...known, isUsed: true });
    },
    list() {
      return [...byTopic.values()].reverse();
    },
  };
}
