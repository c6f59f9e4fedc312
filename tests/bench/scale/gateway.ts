/**
 * One gateway of probes: each message at QoS 1 until acknowledged, over as many lines as it takes, without waiting for one
 * before the next. After a broken line mqtt.js would send what it kept one by one, each after the acknowledgement of the
 * one before, with nothing new beside it; and ended meanwhile it would wait for acknowledgements that can no longer come.
 */
import { connectAsync, type MqttClient } from 'mqtt';

/** Well below what MQTT has packet identifiers for [MQTT-2.3.1-1]; mqtt.js gives one twice when they run out. */
const mostFlying = 10_000;
const joinAgainAfterMs = 200;

interface Message {
  readonly topic: string;
  readonly payload: string;
}

export interface Gateway {
  send(topic: string, payload: string): void;
  /** How many were acknowledged, and how often the line broke. */
  counts(): { acked: number; breaks: number };
  /** Resolves once all is acknowledged or the time is over. */
  stop(withinMs: number): Promise<void>;
}

export async function openGateway(mqttUrl: string, clientId: string): Promise<Gateway> {
  let waiting = new Set<Message>();
  const flying = new Set<Message>();
  let acked = 0;
  let breaks = 0;
  let stopped = false;
  let line: MqttClient | undefined;

  async function join(): Promise<void> {
    const client = await connectAsync(mqttUrl, { clientId, reconnectPeriod: 0 }, false);
    if (stopped) return client.endAsync(true);
    client.on('error', () => {}); // the line closes after it
    client.once('close', () => {
      if (client !== line) return;
      line = undefined;
      breaks += 1;
      waiting = new Set([...flying, ...waiting]);
      flying.clear();
      client.end(true);
      joinAgain();
    });
    line = client;
    pump();
  }

  function joinAgain(): void {
    if (!stopped) setTimeout(() => join().catch(joinAgain), joinAgainAfterMs);
  }

  function pump(): void {
    const client = line;
    if (client === undefined) return;
    for (const message of waiting) {
      if (flying.size >= mostFlying) return;
      waiting.delete(message);
      flying.add(message);
      client.publish(message.topic, message.payload, { qos: 1 }, (error) => {
        if (error || client !== line) return; // it goes over the next line
        flying.delete(message);
        acked += 1;
        if (waiting.size > 0) pump();
      });
    }
  }

  await join();
  return {
    send(topic, payload) {
      waiting.add({ topic, payload });
      pump();
    },
    counts: () => ({ acked, breaks }),
    async stop(withinMs) {
      const untilMs = performance.now() + withinMs;
      while (waiting.size + flying.size > 0 && performance.now() < untilMs) {
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
      stopped = true;
      const client = line;
      line = undefined;
      await client?.endAsync(true);
    },
  };
}
