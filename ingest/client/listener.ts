/**
 * Hears topics at an outside broker for a while, so that a person can see what is there. It never uses the session that
 * keeps readings: whatever becomes of this process, the broker forgets what was listened to.
 */
import type { MqttClient } from 'mqtt';

export interface Listener {
  listen(filter: string, forMs: number): Promise<void>;
  close(): Promise<void>;
}

/** @param open Connects a client with a clean session. */
export function createListener(
  open: () => MqttClient,
  heard: (topic: string, payload: Buffer, isRetained: boolean) => void,
): Listener {
  const untilMs = new Map<string, number>();
  let client: MqttClient | undefined;
  let timer: NodeJS.Timeout | undefined;

  function endFinished(): void {
    const nowMs = Date.now();
    for (const [filter, endMs] of untilMs) {
      if (endMs > nowMs) continue;
      untilMs.delete(filter);
      client?.unsubscribe(filter);
    }
    clearTimeout(timer);
    if (untilMs.size === 0) {
      client?.end(true);
      client = undefined;
    } else {
      timer = setTimeout(endFinished, Math.min(...untilMs.values()) - nowMs + 1).unref();
    }
  }

  function opened(): MqttClient {
    const opening = open();
    opening.on('error', () => {}); // the main connection says what is wrong with the broker
    opening.on('message', (topic, payload, { retain }) => heard(topic, payload, retain));
    return opening;
  }

  return {
    async listen(filter, forMs) {
      client ??= opened();
      const isNew = !untilMs.has(filter);
      untilMs.set(filter, Math.max(Date.now() + forMs, untilMs.get(filter) ?? 0));
      endFinished();
      if (isNew) client.subscribe(filter, { qos: 0 }, () => {});
    },
    async close() {
      untilMs.clear();
      endFinished();
    },
  };
}
