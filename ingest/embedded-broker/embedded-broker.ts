/**
 * A broker inside this process, so that nothing has to be installed. It never keeps sessions of others: what they miss
 * would fill the memory of this process.
 */

import type { Socket } from 'node:net';
import { Aedes } from 'aedes';
import { writeToStream } from 'mqtt-packet';
import { message } from '../../shared/messages/message.ts';
import { partHealth } from '../../shared/part-health.ts';
import { type AuthPolicy, createAuthPolicy } from '../auth/auth-policy.ts';
import type { Outgoing, Sink, Source, SourceContext } from '../commit/inbound-source.ts';
import { BrokerConnections } from './broker-connections.ts';
import { brokerHooks } from './broker-hooks.ts';
import { createBrokerMemory } from './broker-memory.ts';
import { createFilterShares } from './filter-shares.ts';
import type { EmbeddedTicket, HookParts, Principals } from './hook-parts.ts';
import { createKeyShares } from './key-shares.ts';
import {
  type ListenAt,
  type Listening,
  listenPlain,
  listenTls,
  type TlsListenAt,
  type TlsProblem,
} from './listening.ts';
import { createRetainedMessages, type RetainedMessages } from './retained-messages.ts';
import { watchClients, watchTrouble } from './watch-clients.ts';

export interface EmbeddedBrokerOptions extends ListenAt {
  readonly tls?: TlsListenAt | undefined;
  /** Without one, programs of this machine may come in and nobody else. */
  readonly authPolicy?: AuthPolicy | undefined;
  readonly maxConnections?: number | undefined;
  /**
   * Packets a second that one connection from outside or with a key may send for long, and a key of one probe over all
   * its connections; a key of a site four times as many. Ten times as many at once.
   */
  readonly packetsPerSecond?: number | undefined;
  /** Most topics with a retained message; a probe has one, its status. */
  readonly maxRetained?: number | undefined;
}

/** A connection that does not say who it is within this time is ended. */
const introduceWithinMs = 10_000;
/** Messages at QoS 2 that one connection may leave half sent: of each an identifier is kept, and nothing else. */
const mostUnderWay = 1_000;

// It would make 65,536 buffers of two bytes ahead, one for each packet identifier: 8 MB, for what costs no time as needed.
writeToStream.cacheNumbers = false;

export async function openEmbeddedBroker(
  options: EmbeddedBrokerOptions,
  context: SourceContext,
  sink: Sink<EmbeddedTicket>,
): Promise<Source<EmbeddedTicket>> {
  const { maxConnections = 1_000, packetsPerSecond = 500, maxRetained = 10_000 } = options;
  const authPolicy = options.authPolicy ?? createAuthPolicy(context);
  const principals: Principals = new WeakMap();
  const connections = new BrokerConnections({ sink, authPolicy, principals, maxConnections, packetsPerSecond });
  const retained = createRetainedMessages(maxRetained);
  const filters = createFilterShares();
  const memory = createBrokerMemory();
  let paused = false;
  const broker = await openBroker(memory, {
    ...{ context, authPolicy, sink, retained, filters, principals },
    shares: createKeyShares(maxConnections),
    isPaused: () => paused,
    letIn: (socket, principal) => connections.letIn(socket, principal),
    spend: (socket, packets) => connections.spend(socket, packets),
    isUnderWay: memory.isUnderWay,
  });
  broker.on('unsubscribe', (given, client) => filters.give({ client, principal: principals.get(client) }, given));
  watchClients(broker, authPolicy, principals);
  watchTrouble(broker, connections, sink, context.log);
  const listening = await listenAt(options, context, broker, connections);

  return {
    url: listening.url,
    tlsUrl: listening.tlsUrl,
    acknowledge: (tickets) => {
      for (const done of tickets) done(null);
    },
    health: () => {
      const { url: urlText, tlsUrl } = listening;
      const at = { urlText, isTls: tlsUrl !== undefined, tlsText: tlsUrl ?? '' };
      return partHealth('ok', message('health.broker.embedded', { ...at, clientCount: broker.connectedClients }));
    },
    setForeign: () => {}, // every message comes by here anyway
    listen: async () => {},
    say: (_site, message) => publish(broker, retained, message),
    async pause() {
      paused = true;
      listening.stop();
    },
    async close() {
      listening.stop();
      await Promise.race([
        new Promise<void>((resolve) => broker.close(resolve)),
        new Promise((resolve) => setTimeout(resolve, 1_000).unref()),
      ]);
      connections.endAll();
    },
  };
}

function openBroker(memory: ReturnType<typeof createBrokerMemory>, parts: HookParts): Promise<Aedes> {
  return Aedes.createBroker({
    ...brokerHooks(parts),
    persistence: memory,
    connectTimeout: introduceWithinMs,
    concurrency: 0, // a message that somebody is slow to hear must not hold up the others
    maxInflightInbound: mostUnderWay,
    queueLimit: 1_000, // publishers need not wait for CONNACK [MQTT-3.1.4-5]
    maxClientsIdLength: 512, // those longer than that our own hook turns away, in every version of MQTT
  });
}

/** The ports of the broker, and TLS beside them where it is asked for. */
async function listenAt(
  options: EmbeddedBrokerOptions,
  { log }: SourceContext,
  broker: Aedes,
  connections: BrokerConnections,
): Promise<Listening & { readonly tlsUrl: string | undefined }> {
  const arrive = (socket: Socket) => connections.arrive(socket);
  const speak = (socket: Socket, raw: Socket = socket) =>
    connections.speak(socket, raw, (readable) => broker.handle(readable));
  const plain = await listenPlain(options, arrive, speak, log);
  const disagreed = (socket: Socket, reason: TlsProblem) => connections.refused(socket, reason);
  const tls = options.tls && (await listenTls(options.tls, { arrive, speak, disagreed }, log));
  const { url } = plain;
  log.info({ url, tls: tls?.url }, 'the embedded broker takes readings');
  return {
    url,
    tlsUrl: tls?.url,
    stop() {
      plain.stop();
      tls?.stop();
    },
  };
}

function publish(broker: Aedes, retained: RetainedMessages, { topic, text, retain }: Outgoing): void {
  if (retain && text === '') retained.mayRetain(topic, 0, null);
  const payload = Buffer.from(text);
  broker.publish({ cmd: 'publish', topic, payload, qos: 1, retain, dup: false }, () => {});
}
