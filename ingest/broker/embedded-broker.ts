/**
 * ingest/broker/embedded-broker.ts: a broker inside this process, so that nothing has to be installed.
 *
 * Takes:  address and port, and the sink for messages.
 * Gives:  a source; a publisher's QoS 1 message is acknowledged after the commit of its readings.
 * Never:  keeps sessions of others: what they miss would fill the memory of this process.
 */
import type { EventEmitter } from 'node:events';
import { createServer, type Server, type Socket } from 'node:net';
import { Aedes, type AedesOptions } from 'aedes';
import { ConfigError, ReadingError } from '../../shared/errors.ts';
import type { Sink, Source, SourceContext } from './inbound-source.ts';
import { createPacketGuard } from './packet-guard.ts';

export interface EmbeddedBrokerOptions {
  /** 0 takes any free one. */
  readonly port: number;
  readonly host: string;
  readonly maxConnections?: number;
  /** Most topics with a retained message; a probe has one, its status. */
  readonly maxRetained?: number;
}

/** Above this a packet is not even read to its end; up to it, it is read, refused and acknowledged. */
export const longestPacketBytes = 2 * 1024 * 1024;

/** Called once with the message's fate: nothing to acknowledge it, an error to part from the publisher without. */
export type EmbeddedTicket = (error?: Error | null) => void;

type AuthorizePublish = NonNullable<AedesOptions['authorizePublish']>;

export async function openEmbeddedBroker(
  options: EmbeddedBrokerOptions,
  context: SourceContext,
  sink: Sink<EmbeddedTicket>,
): Promise<Source<EmbeddedTicket>> {
  const { log } = context;
  const sockets = new Set<Socket>();
  const retainedTopics = new Set<string>();
  const maxRetained = options.maxRetained ?? 10_000;
  let paused = false;

  /**
   * aedes sends the PUBACK when this calls back, and delivers to subscribers after it, so the commit happens here.
   * It comes for live messages and for wills alike. An error ends that client's connection, and nobody else's.
   */
  const authorizePublish: AuthorizePublish = (_client, packet, done) => {
    if (packet.topic.startsWith('$SYS/')) return done(new Error('topics below $SYS belong to the broker'));
    if (paused) return done(new Error('the broker is closing'));
    // Not acknowledged and not kept in memory: the publisher still has it and tries again.
    if (!sink.hasRoom()) return done(new Error('readings cannot be stored now, come back later'));
    if (packet.retain && !mayRetain(packet.topic, packet.payload.length)) packet.retain = false;
    const payload = Buffer.isBuffer(packet.payload) ? packet.payload : Buffer.from(packet.payload);
    sink.take({ topic: packet.topic, payload, retained: false }, done);
  };

  function mayRetain(topic: string, payloadBytes: number): boolean {
    if (payloadBytes === 0) retainedTopics.delete(topic);
    else if (retainedTopics.size < maxRetained) retainedTopics.add(topic);
    return payloadBytes === 0 || retainedTopics.has(topic);
  }

  const broker = await Aedes.createBroker({
    authorizePublish,
    // Sessions end with their connection: the packet is changed before the broker reads it.
    preConnect: (_client, packet, done) => {
      packet.clean = true;
      done(null, true);
    },
    queueLimit: 1_000, // publishers need not wait for CONNACK [MQTT-3.1.4-5]
    maxClientsIdLength: 256,
  });
  broker.on('clientError', (client, error) => {
    // Topics that no publisher may use (wildcards, none, too deep) end the connection before `authorizePublish`.
    if (/PUBLISH|topic has/.test(error.message)) {
      const message = `Cannot read the topic as MQTT must allow it for publishing: ${error.message}`;
      sink.refuse(new ReadingError('topic-shape', message), `(not told) from ${client.id}`, '');
    }
    log.warn({ client: client.id, err: error }, 'parted from a publisher');
  });
  broker.on('connectionError', (_client, error) =>
    log.warn({ err: error }, 'a publisher could not connect; the embedded broker speaks MQTT 3.1 and 3.1.1'),
  );
  // aedes emits this for trouble of its own, and an EventEmitter without a listener would end the process.
  (broker as EventEmitter).on('error', (error: unknown) => log.error({ err: error }, 'trouble in the embedded broker'));

  const server = createServer({ noDelay: true }, (socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
    guard(socket, sink);
    broker.handle(socket);
  });
  server.maxConnections = options.maxConnections ?? 1_000;
  await listen(server, options);
  server.on('error', (error) => log.error({ err: error }, 'a connection could not be taken'));
  const url = `mqtt://${hostInUrl(options.host)}:${portOf(server)}`;
  log.info({ url }, 'the embedded broker takes readings');

  return {
    url,
    acknowledge: (tickets) => {
      for (const done of tickets) done(null);
    },
    health: () => ({ state: 'ok', detail: `Embedded broker at ${url}, ${broker.connectedClients} connected` }),
    setMappings: () => {}, // every message comes by here anyway
    listen: async () => {},
    async pause() {
      paused = true;
      server.close();
    },
    async close() {
      server.close();
      await Promise.race([
        new Promise<void>((resolve) => broker.close(resolve)),
        new Promise((resolve) => setTimeout(resolve, 1_000).unref()),
      ]);
      for (const socket of sockets) socket.destroy();
    },
  };
}

/** Looks at what the broker reads from the socket, and ends a connection that announces a packet beyond all bounds. */
function guard(socket: Socket, sink: Sink<EmbeddedTicket>): void {
  const tooLong = createPacketGuard(longestPacketBytes);
  const read = socket.read.bind(socket);
  socket.read = (size?: number) => {
    const chunk: unknown = read(size);
    const lengthBytes = chunk instanceof Uint8Array ? tooLong(chunk) : undefined;
    if (lengthBytes === undefined) return chunk;
    const message = `Cannot read a packet as it must be at most ${longestPacketBytes} bytes: announced ${lengthBytes}, so the connection was ended`;
    sink.refuse(
      new ReadingError('payload-too-large', message),
      `(not read) from ${socket.remoteAddress ?? 'a publisher'}`,
      '',
    );
    socket.destroy();
    return null;
  };
}

async function listen(server: Server, { port, host }: EmbeddedBrokerOptions): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) => reject(listenError(cause, port, host)));
    server.listen(port, host, resolve);
  });
  server.removeAllListeners('error');
}

function listenError(cause: NodeJS.ErrnoException, port: number, host: string): Error {
  if (cause.code === 'EADDRINUSE') {
    return new ConfigError(
      `BRANHEARTH_MQTT_PORT must be a free port for the embedded broker: ${port} at ${host} is taken by another program (a broker already?); set another one, or BRANHEARTH_MQTT_URL to use that broker`,
      { cause },
    );
  }
  return new ConfigError(
    `BRANHEARTH_MQTT_PORT and BRANHEARTH_MQTT_HOST must be a port and address that can be listened on: ${port} at ${host} gave ${cause.code ?? cause.message}`,
    { cause },
  );
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

function hostInUrl(host: string): string {
  return host.includes(':') ? `[${host}]` : host;
}
