/**
 * Publishes as probes do, at QoS 1, with a Last Will that says "offline". It never keeps more than `inFlight`
 * unacknowledged messages per connection: a slow broker slows the farm.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import { connectAsync, type IClientOptions, type MqttClient } from 'mqtt';
import type { FarmMessage } from '../farm/play-farm.ts';
import { defaultRoot, type PayloadForm, readingPayload, readingTopic, statusTopic } from './payload.ts';
import type { Sink } from './sink.ts';

export interface Principal {
  readonly site: string;
  readonly probe: string;
}

export interface MqttSinkOptions {
  readonly url: string;
  readonly principals: readonly Principal[];
  readonly root?: string | undefined;
  readonly form?: PayloadForm | undefined;
  readonly username?: string | undefined;
  readonly password?: string | undefined;
  /** One connection per probe, or one per site. One per probe up to 64 probes when left out. */
  readonly connectionPer?: 'probe' | 'site' | undefined;
  /** Unacknowledged messages per connection. */
  readonly inFlight?: number | undefined;
}

interface Line {
  readonly client: MqttClient;
  readonly flying: Set<Promise<unknown>>;
}

const fewProbes = 64;

/** How long `close` waits for the last acknowledgements [ms]. */
const farewellMs = 5000;

export async function mqttSink(options: MqttSinkOptions): Promise<Sink> {
  const { principals, root = defaultRoot, form = 'object', inFlight = 20 } = options;
  const per = options.connectionPer ?? (principals.length <= fewProbes ? 'probe' : 'site');
  const lineName = ({ site, probe }: Principal) => (per === 'probe' ? `${site}/${probe}` : site);
  const lines = new Map<string, Line>();
  for (const principal of principals) {
    const name = lineName(principal);
    if (lines.has(name)) continue;
    lines.set(name, {
      client: await connect(options, per === 'probe' ? principal : undefined, root),
      flying: new Set(),
    });
  }
  const lineOf = (principal: Principal): Line => {
    const line = lines.get(lineName(principal));
    if (line === undefined)
      throw new Error(`Cannot publish as probe ${principal.site}/${principal.probe} was not announced`);
    return line;
  };
  const publish = async (principal: Principal, topic: string, payload: string, retain: boolean) => {
    const { client, flying } = lineOf(principal);
    while (flying.size >= inFlight) await Promise.race(flying);
    // A promise that is never awaited must not end the process: what fails is reported by close().
    const sent: Promise<unknown> = client
      .publishAsync(topic, payload, { qos: 1, retain })
      .finally(() => flying.delete(sent));
    sent.catch(() => {});
    flying.add(sent);
  };
  const say = (principal: Principal, online: boolean) =>
    publish(principal, statusTopic(root, principal.site, principal.probe), online ? 'online' : 'offline', true);

  for (const principal of principals) await say(principal, true);
  // The Will has said "offline" for a probe that lost its connection; back again, it says so itself.
  for (const [name, { client }] of lines) {
    const its = principals.filter((principal) => lineName(principal) === name);
    client.on('connect', () => {
      for (const principal of its) void say(principal, true);
    });
  }
  return {
    async send(message: FarmMessage) {
      if (message.kind === 'status') return say(message, message.online);
      const { site, probe, atMs, values } = message;
      await publish(message, readingTopic(root, site, probe), readingPayload(form, site, probe, atMs, values), false);
    },
    async close() {
      const farewell = async () => {
        for (const principal of principals) await say(principal, false);
        await Promise.allSettled([...lines.values()].flatMap(({ flying }) => [...flying]));
      };
      // A broker that has gone for good must not keep us: what it has not acknowledged by then is lost.
      const left = await Promise.race([farewell(), sleep(farewellMs, 'left')]);
      await Promise.all([...lines.values()].map(({ client }) => client.endAsync(left === 'left')));
    },
  };
}

/** @param willOf The probe whose Will this connection leaves; none for a shared connection, which cannot speak for all. */
async function connect(options: MqttSinkOptions, willOf: Principal | undefined, root: string): Promise<MqttClient> {
  const settings: IClientOptions = {
    reconnectPeriod: 1000,
    connectTimeout: 10_000,
    ...(options.username === undefined ? {} : { username: options.username }),
    ...(options.password === undefined ? {} : { password: options.password }),
  };
  if (willOf !== undefined) {
    // MQTT 3.1.1, 3.1.2.5 (small brokers speak no MQTT 5): the broker publishes the Will when the connection is lost without a farewell.
    const topic = statusTopic(root, willOf.site, willOf.probe);
    settings.will = { topic, payload: Buffer.from('offline'), qos: 1, retain: true };
  }
  try {
    const client = await connectAsync(options.url, settings, false);
    // It connects again by itself and sends what is unacknowledged; without a listener the error would end the process.
    client.on('error', () => {});
    return client;
  } catch (cause) {
    const reason =
      cause instanceof Error
        ? cause.message || String((cause as { code?: unknown }).code ?? cause.name)
        : String(cause);
    throw new Error(`Cannot reach the MQTT broker at ${withoutPassword(options.url)}: ${reason}`, { cause });
  }
}

function withoutPassword(url: string): string {
  return url.replace(/\/\/[^@/]*@/, '//');
}
