/**
 * A broker inside this process, so that nothing has to be installed. It never keeps sessions of others: what they miss
 * would fill the memory of this process.
 */
import type { EventEmitter } from 'node:events';
import type { Socket } from 'node:net';
import { Aedes, type Client } from 'aedes';
import { writeToStream } from 'mqtt-packet';
import { ReadingError } from '../../shared/errors.ts';
import { type AuthPolicy, createAuthPolicy, type Principal } from '../auth/auth-policy.ts';
import type { RefusedReason } from '../auth/connection-attempts.ts';
import type { Sink, Source, SourceContext } from '../commit/inbound-source.ts';
import { addressOf, createArrivals } from './arrivals.ts';
import { brokerHooks, type EmbeddedTicket, socketOf } from './broker-hooks.ts';
import { createBrokerMemory } from './broker-memory.ts';
import { shownClientId } from './client-ids.ts';
import { createKeyShares } from './key-shares.ts';
import { type ListenAt, listenPlain, listenTls, type TlsListenAt } from './listening.ts';
import { createPace, type Pace } from './pace.ts';
import type { TooLong } from './packet-guard.ts';
import { longestPublishBytes, packetTypes } from './packet-limits.ts';
import { gateReading, type ReadingGate } from './reading-gate.ts';
import { createRetainedMessages } from './retained-messages.ts';
import { warnSeldom } from './seldom.ts';

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
const secondsAtOnce = 10;
/** Gateways that share the key of a site and all speak as fast as one may. */
const fastConnectionsOfSite = 4;
/** Longer silence on a connection is looked into by TCP itself, so that what the network lost is parted from. */
const probeSilenceMs = 60_000;

/** Messages at QoS 2 that one connection may leave half sent: of each an identifier is kept, and nothing else. */
const mostUnderWay = 1_000;

/** One connection: who counts it, and who decides when it is read. */
interface Connection {
  readonly raw: Socket;
  readonly gate: ReadingGate;
}

// It would make 65,536 buffers of two bytes ahead, one for each packet identifier: 8 MB, for what costs no time as needed.
writeToStream.cacheNumbers = false;

export async function openEmbeddedBroker(
  options: EmbeddedBrokerOptions,
  context: SourceContext,
  sink: Sink<EmbeddedTicket>,
): Promise<Source<EmbeddedTicket>> {
  const { log, clock, root } = context;
  const { packetsPerSecond = 500 } = options;
  const authPolicy = options.authPolicy ?? createAuthPolicy({ clock, root });
  const { maxConnections = 1_000 } = options;
  const arrivals = createArrivals(maxConnections);
  const shares = createKeyShares(maxConnections);
  const memory = createBrokerMemory();
  const retained = createRetainedMessages(options.maxRetained ?? 10_000);
  const keyPaces = new WeakMap<Principal, Pace>();
  const connections = new WeakMap<Socket, Connection>();
  const warn = warnSeldom(log);
  let paused = false;

  const hooks = brokerHooks({
    context,
    authPolicy,
    sink,
    retained,
    shares,
    isPaused: () => paused,
    letIn(socket, principal) {
      const connection = connections.get(socket);
      if (connection === undefined) return;
      arrivals.introduced(connection.raw);
      connection.gate.setPaces(pacesOf(principal));
    },
    spend: (socket, packets) => connections.get(socket)?.gate.spend(packets),
    isUnderWay: memory.isUnderWay,
  });
  const broker = await Aedes.createBroker({
    ...hooks.options,
    persistence: memory,
    connectTimeout: introduceWithinMs,
    concurrency: 0, // a message that somebody is slow to hear must not hold up the others
    maxInflightInbound: mostUnderWay,
    queueLimit: 1_000, // publishers need not wait for CONNACK [MQTT-3.1.4-5]
    maxClientsIdLength: 512, // those longer than that our own hook turns away, in every version of MQTT
  });

  function newPace(perSecond: number): Pace {
    return createPace(perSecond, secondsAtOnce * perSecond, performance.now());
  }

  function pacesOf(principal: Principal): readonly Pace[] {
    if (!principal.isPaced) return [];
    if (principal.keyId === null) return [newPace(packetsPerSecond)];
    let ofKey = keyPaces.get(principal);
    if (ofKey === undefined) {
      ofKey = newPace(packetsPerSecond * (principal.isOneProbe ? 1 : fastConnectionsOfSite));
      keyPaces.set(principal, ofKey);
    }
    return principal.isOneProbe ? [ofKey] : [newPace(packetsPerSecond), ofKey];
  }

  function refuseConnection(socket: Socket, reason: RefusedReason, client?: Client): void {
    const keyId = (client && hooks.principalOf(client)?.keyId) ?? null;
    authPolicy.connectionAttempts.count({
      address: addressOf(socket),
      clientId: shownClientId(client?.id ?? null),
      keyId,
      reason,
    });
  }

  function arrive(socket: Socket): boolean {
    socket.setKeepAlive(true, probeSilenceMs);
    if (arrivals.take(socket)) return true;
    refuseConnection(socket, 'too-many');
    return false;
  }

  function tooLong(socket: Socket, { type, lengthBytes }: TooLong, client?: Client): void {
    if (type !== packetTypes.publish) {
      refuseConnection(socket, 'too-long-packet', client);
      return;
    }
    const most = `Cannot read a message as it must be at most ${longestPublishBytes} bytes, and its topic short`;
    const message = `${most}: announced ${lengthBytes}, so the connection was ended`;
    sink.refuse(new ReadingError('payload-too-large', message), `(not read) from ${addressOf(socket)}`, '');
  }

  /** @param raw The connection itself, where `socket` is what TLS makes of it. */
  function speak(socket: Socket, raw: Socket = socket): void {
    const gate = gateReading(socket, sink, {
      tooLong: (packet) => tooLong(socket, packet, client),
      tooFast: () => refuseConnection(socket, 'too-fast', client),
    });
    connections.set(socket, { raw, gate });
    const client = broker.handle(socket);
  }

  watchClients(broker, authPolicy, hooks.principalOf);
  broker.on('unsubscribe', (filters, client) =>
    shares.giveFilters({ client, principal: hooks.principalOf(client) }, filters),
  );
  broker.on('clientError', (client, error) => {
    // Topics that no publisher may use (wildcards, none, too deep) end the connection before `authorizePublish`.
    if (/PUBLISH|topic has/.test(error.message)) {
      const message = `Cannot read the topic as MQTT must allow it for publishing: ${error.message}`;
      sink.refuse(new ReadingError('topic-shape', message), `(not told) from ${shownClientId(client.id)}`, '');
    }
    if (/maxInflightInbound/.test(error.message)) refuseConnection(socketOf(client), 'too-much-under-way', client);
    warn({ client: shownClientId(client.id), err: error }, 'parted from a publisher');
  });
  broker.on('connectionError', (client, error) => {
    if (/in time/.test(error.message)) refuseConnection(socketOf(client), 'too-slow');
    warn({ err: error }, 'a publisher could not connect; the embedded broker speaks MQTT 3.1 and 3.1.1');
  });
  // aedes emits this for trouble of its own, and an EventEmitter without a listener would end the process.
  (broker as EventEmitter).on('error', (error: unknown) => log.error({ err: error }, 'trouble in the embedded broker'));

  const plain = await listenPlain(options, arrive, speak, log);
  const tls = options.tls && (await listenTls(options.tls, arrive, speak, log));
  const { url } = plain;
  log.info({ url, tls: tls?.url }, 'the embedded broker takes readings');
  const stopListening = () => {
    plain.stop();
    tls?.stop();
  };

  return {
    url,
    tlsUrl: tls?.url,
    acknowledge: (tickets) => {
      for (const done of tickets) done(null);
    },
    health: () => {
      const at = tls === undefined ? url : `${url} and ${tls.url}`;
      return { state: 'ok', detail: `Embedded broker at ${at}, ${broker.connectedClients} connected` };
    },
    setForeign: () => {}, // every message comes by here anyway
    listen: async () => {},
    keep(topic, text) {
      if (text === '') retained.mayRetain(topic, 0, null);
      const packet = {
        cmd: 'publish' as const,
        topic,
        payload: Buffer.from(text),
        qos: 1 as const,
        retain: true,
        dup: false,
      };
      broker.publish(packet, () => {});
    },
    async pause() {
      paused = true;
      stopListening();
    },
    async close() {
      stopListening();
      await Promise.race([
        new Promise<void>((resolve) => broker.close(resolve)),
        new Promise((resolve) => setTimeout(resolve, 1_000).unref()),
      ]);
      arrivals.endAll();
    },
  };
}

/** Tells the auth policy which keys are connected, and disconnects those who may not stay once it changed. */
function watchClients(
  broker: Aedes,
  authPolicy: AuthPolicy,
  principalOf: (client: Client) => Principal | undefined,
): void {
  const inside = new Map<Client, Principal>();
  broker.on('client', (client) => {
    const principal = principalOf(client);
    if (principal === undefined) return;
    inside.set(client, principal);
    if (principal.keyId !== null) authPolicy.sawKey(principal.keyId, addressOf(socketOf(client)), 1);
  });
  broker.on('clientDisconnect', (client) => {
    const principal = inside.get(client);
    if (inside.delete(client) && principal?.keyId != null)
      authPolicy.sawKey(principal.keyId, addressOf(socketOf(client)), -1);
  });
  authPolicy.onChange(() => {
    for (const [client, principal] of inside) {
      if (!authPolicy.mayStay(principal, addressOf(socketOf(client)))) client.conn.destroy();
    }
  });
}
