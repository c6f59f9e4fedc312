/**
 * Readings from a broker that somebody else runs. It never starts a clean session: what is published while we are away
 * waits at the broker (MQTT 5 section 3.1.2.11.2).
 */
import { connect, type IClientOptions, type IPublishPacket } from 'mqtt';
import { ConfigError } from '../../shared/errors.ts';
import { msPerDay } from '../../shared/units.ts';
import type { Sink, Source, SourceContext, SourceHealth } from '../commit/inbound-source.ts';
import { matchFilter } from '../mapping/topic-filter.ts';
import { acknowledge, type Delivery, deferAcknowledgements } from './deferred-acks.ts';
import { createDropCounter, droppedTopic } from './drop-counter.ts';
import { createListener } from './listener.ts';
import { audienceOf } from './subscription-ids.ts';
import { createSubscriptions } from './subscriptions.ts';

export interface OutsideBrokerOptions {
  readonly url: string;
  /** Stable: the broker keeps messages for this name. */
  readonly clientId: string;
  readonly username?: string | undefined;
  readonly password?: string | undefined;
  /** Messages the broker may send before it must wait for acknowledgements (MQTT 5 section 3.1.2.11.3). */
  readonly receiveMaximum?: number;
  /** What to hear of ours; every site when absent. */
  readonly rootFilter?: string;
  /** Only looks on: keeps no session and asks for no second delivery. */
  readonly onlooker?: boolean;
  /** Asked before each attempt to come back; once it says no, `confirm` must be called first. */
  mayConnect?(): boolean;
  /** Everything wanted is subscribed. @param hadBefore The broker knew this session. */
  onStanding?(hadBefore: boolean): void;
  /** Messages of our own making, heard in their order among all others. */
  readonly marks?: { readonly filter: string; heard(topic: string, text: string): void };
}

/** What several sessions of one process need beside a source. */
export interface OutsideSession extends Source<OutsideTicket> {
  confirm(): void;
  publish(topic: string, text: string): void;
  /** The connection now. */
  line(): Delivery['stream'];
}

/** How long the broker keeps what we missed. */
const sessionExpiryS = (7 * msPerDay) / 1000;
const sessionTakenOver = 0x8e;
/** Between attempts to come back. */
const againMs = 1_000;

export type OutsideTicket = Delivery | undefined;

export function openOutsideBroker(
  options: OutsideBrokerOptions,
  context: SourceContext,
  sink: Sink<OutsideTicket>,
): OutsideSession {
  const { log } = context;
  const { onlooker = false, mayConnect, marks, onStanding } = options;
  const url = checkedUrl(options.url);
  const rootFilter = options.rootFilter ?? `${context.root}/+/+/+`;
  const dropped = createDropCounter();
  let problem = 'not connected yet';
  let connectedBefore = false;
  let paused = false;

  let hadBefore = false;
  const client = connect(options.url, connectOptions(options, onlooker ? 'onlooking' : 'lasting'));
  const subscriptions = createSubscriptions(client, rootFilter, droppedTopic, log, {
    qos: onlooker ? 0 : 1,
    ...(marks && { also: marks.filter }),
    ...(onStanding && { standing: () => onStanding(hadBefore) }),
  });
  const listener = createListener(
    () => connect(options.url, connectOptions(options, 'passing')),
    (topic, payload) => {
      if (matchFilter(rootFilter, topic) === undefined) sink.show(topic, payload);
    },
  );

  deferAcknowledgements(client, (packet, delivery, next) => {
    if (paused) return next(); // unacknowledged, so it comes again next time
    handle(packet, delivery);
    if (sink.hasRoom()) next();
    else sink.whenRoom(next); // the socket is not read meanwhile, and the broker keeps the rest
  });

  function handle(packet: IPublishPacket, delivery: Delivery | undefined): void {
    const payload = Buffer.isBuffer(packet.payload) ? packet.payload : Buffer.from(packet.payload);
    if (packet.topic === droppedTopic) {
      dropped.saw(payload.toString('utf8'));
      return;
    }
    if (marks && matchFilter(marks.filter, packet.topic) !== undefined) {
      marks.heard(packet.topic, payload.toString('utf8'));
      sink.pass(delivery);
      return;
    }
    const audience = audienceOf(rootFilter, packet.topic, packet.properties?.subscriptionIdentifier);
    const message = { topic: packet.topic, payload, retained: packet.retain };
    if (audience === 'everybody') sink.take(message, delivery);
    else if (audience === 'nobody') sink.pass(delivery);
    else sink.take({ ...message, cameBy: audience }, delivery);
  }

  client.on('connect', ({ sessionPresent }) => {
    problem = '';
    hadBefore = sessionPresent;
    subscriptions.renew();
    log.info({ url, sessionPresent }, 'connected to the broker');
    if (connectedBefore && !sessionPresent) {
      log.warn({ url }, 'the broker forgot our session; what was published while we were away may be lost');
    }
    connectedBefore = true;
  });
  client.on('disconnect', (packet) => {
    if (packet.reasonCode !== sessionTakenOver) return;
    problem = `another program uses the client id ${options.clientId}`;
    if (mayConnect) client.options.reconnectPeriod = 0; // it took the site over: not to be taken back unasked
  });
  client.on('error', (error) => {
    const said = sayError(error);
    if (said !== problem) log.warn({ url, err: error }, 'trouble with the broker'); // not once a second
    problem = said;
  });
  client.on('close', () => {
    if (problem === '') problem = 'the connection was lost';
    if (mayConnect && !mayConnect()) client.options.reconnectPeriod = 0;
  });

  function health(): SourceHealth {
    if (!client.connected) {
      const detail = `Not connected to ${url}: ${problem || 'connecting'}; it is tried again every second`;
      return { state: 'down', detail };
    }
    const refused = subscriptions.refused();
    if (refused.length > 0) {
      const state = refused.includes(rootFilter) ? 'down' : 'degraded';
      return { state, detail: `${url} refused the subscription to ${refused.join(', ')}` };
    }
    if (dropped.count() === 0) return { state: 'ok', detail: `Connected to ${url}` };
    const detail = `${url} has thrown away ${dropped.count()} messages since this start: raise its max_queued_messages`;
    return { state: 'degraded', detail };
  }

  return {
    url,
    acknowledge: (deliveries) => acknowledge(client, deliveries),
    health,
    confirm() {
      if (client.connected || client.reconnecting || client.options.reconnectPeriod !== 0) return;
      client.options.reconnectPeriod = againMs;
      client.reconnect();
    },
    publish: (topic, text) => void client.publish(topic, text, { qos: 1 }, () => {}),
    // A broker that is away gets only the newest, when it is said again: nothing is queued for it here.
    keep: (topic, text) => void (client.connected && client.publish(topic, text, { qos: 1, retain: true }, () => {})),
    line: () => client.stream,
    setForeign: subscriptions.setForeign,
    listen: listener.listen,
    async pause() {
      paused = true;
      await listener.close();
    },
    async close() {
      await Promise.race([client.endAsync(), new Promise((resolve) => setTimeout(resolve, 1_000).unref())]);
      client.end(true);
    },
  };
}

/** The address as it may be shown. @throws {ConfigError} */
function checkedUrl(url: string): string {
  const shown = withoutSecrets(url);
  if (/^(mqtts?|wss?):\/\/./.test(url)) return shown;
  throw new ConfigError(
    `BRANHEARTH_MQTT_URL must be an address such as mqtt://broker.example:1883; it was ${JSON.stringify(shown)}`,
  );
}

/** A lasting session is kept by the broker while we are away, the others end with their connection. */
function connectOptions(options: OutsideBrokerOptions, session: 'lasting' | 'passing' | 'onlooking'): IClientOptions {
  const { clientId, username, password, receiveMaximum = 1_000 } = options;
  const lasting = {
    clientId,
    clean: false,
    properties: { sessionExpiryInterval: sessionExpiryS, receiveMaximum },
    resubscribe: false, // done on every connect, so that retained status arrives each time
  };
  const ways = {
    lasting,
    passing: { clientId: `${clientId}-listening`, clean: true },
    onlooking: { clientId, clean: true, resubscribe: false },
  };
  return {
    ...ways[session],
    protocolVersion: 5,
    keepalive: 30,
    reconnectPeriod: againMs,
    reconnectOnConnackError: true, // a broker that is starting, or a password being changed, refuses at first
    connectTimeout: 10_000,
    log: () => {}, // called several times per message
    ...(username === undefined ? {} : { username }),
    ...(password === undefined ? {} : { password }),
  };
}

/** Connection errors of Node carry their text in `code` when several addresses were tried. */
function sayError(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.message || String((error as NodeJS.ErrnoException).code ?? error.name);
}

function withoutSecrets(url: string): string {
  if (!URL.canParse(url)) return url;
  const shownUrl = new URL(url);
  shownUrl.username = '';
  shownUrl.password = '';
  return shownUrl.href.replace(/\/$/, '');
}
