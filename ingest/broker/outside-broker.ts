/**
 * ingest/broker/outside-broker.ts: readings from a broker that somebody else runs.
 *
 * Takes:  its address, our client id, and the sink for messages.
 * Gives:  a source that acknowledges after the commit, finds its way back by itself, and says how it stands.
 * Never:  starts a clean session: what is published while we are away waits at the broker (MQTT 5 section 3.1.2.11.2).
 */
import { connect, type IPublishPacket, type MqttClient } from 'mqtt';
import { ConfigError } from '../../shared/errors.ts';
import { msPerDay } from '../../shared/units.ts';
import { acknowledge, type Delivery, deferAcknowledgements } from './deferred-acks.ts';
import { audienceOf, createHeardFilters, subscriptionId } from './heard-filters.ts';
import type { Sink, Source, SourceContext, SourceHealth } from './inbound-source.ts';

export interface OutsideBrokerOptions {
  readonly url: string;
  /** Stable: the broker keeps messages for this name. */
  readonly clientId: string;
  readonly username?: string | undefined;
  readonly password?: string | undefined;
  /** Messages the broker may send before it must wait for acknowledgements (MQTT 5 section 3.1.2.11.3). */
  readonly receiveMaximum?: number;
}

/** How long the broker keeps what we missed. */
const sessionExpiryS = (7 * msPerDay) / 1000;
/** Where Mosquitto counts messages it threw away because a client's queue was full. */
const droppedTopic = '$SYS/broker/publish/messages/dropped';
const sessionTakenOver = 0x8e;

export type OutsideTicket = Delivery | undefined;

export function openOutsideBroker(
  options: OutsideBrokerOptions,
  context: SourceContext,
  sink: Sink<OutsideTicket>,
): Source<OutsideTicket> {
  const { log } = context;
  const rootFilter = `${context.root}/+/+/+`;
  const url = withoutSecrets(options.url);
  const heard = createHeardFilters(rootFilter);
  /** With the subscription identifier each has. */
  const subscribed = new Map<string, number | undefined>();
  const refusedFilters = new Set<string>();
  const dropped = createDropCounter();
  let problem = 'not connected yet';
  let paused = false;
  let listenTimer: NodeJS.Timeout | undefined;

  const client = connectClient(options);
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
    const audience = audienceOf(rootFilter, packet.topic, packet.properties?.subscriptionIdentifier);
    const message = { topic: packet.topic, payload, retained: packet.retain };
    if (audience === 'everybody') sink.take(message, delivery);
    else if (audience === 'nobody') sink.pass(delivery);
    else sink.take({ ...message, mayMap: audience }, delivery);
  }

  /**
   * Retained messages come with each new subscription (Retain Handling 0), so that every probe's status arrives;
   * one that only changes its identifier brings none (Retain Handling 1).
   */
  function subscribe(filter: string, id: number | undefined): void {
    const retainHandling = subscribed.has(filter) ? 1 : 0;
    subscribed.set(filter, id);
    client.subscribe(
      filter,
      {
        qos: filter === droppedTopic ? 0 : 1,
        rh: retainHandling,
        ...(id === undefined ? {} : { properties: { subscriptionIdentifier: id } }),
      },
      (error, granted) => {
        const failed = error !== null || granted?.some(({ qos }) => qos >= 0x80);
        if (!failed) refusedFilters.delete(filter);
        else if (filter !== droppedTopic && client.connected) {
          refusedFilters.add(filter);
          log.error({ filter, err: error }, 'the broker refused a subscription; look at what this user may read there');
        }
      },
    );
  }

  function hearWanted(): void {
    if (!client.connected) return; // on connecting everything is subscribed anyway
    const foreign = heard.wanted(Date.now());
    // Identifiers tell copies apart where filters may overlap; without foreign ones they would only cost time.
    const numbered = foreign.size > 0 && client.serverProperties?.subscriptionIdentifiersAvailable !== false;
    const idOf = (filter: string) => (numbered && filter !== droppedTopic ? subscriptionId(filter) : undefined);
    const wanted = new Set([rootFilter, droppedTopic, ...foreign]);
    for (const filter of wanted) {
      if (!subscribed.has(filter) || subscribed.get(filter) !== idOf(filter)) subscribe(filter, idOf(filter));
    }
    for (const filter of subscribed.keys()) {
      if (wanted.has(filter)) continue;
      subscribed.delete(filter);
      refusedFilters.delete(filter);
      client.unsubscribe(filter);
    }
    clearTimeout(listenTimer);
    const endMs = heard.nextEndMs();
    if (endMs !== undefined) listenTimer = setTimeout(hearWanted, Math.max(0, endMs - Date.now()) + 1).unref();
  }

  let connectedBefore = false;
  client.on('connect', ({ sessionPresent }) => {
    problem = '';
    subscribed.clear();
    hearWanted();
    log.info({ url, sessionPresent }, 'connected to the broker');
    if (connectedBefore && !sessionPresent) {
      log.warn({ url }, 'the broker forgot our session; what was published while we were away may be lost');
    }
    connectedBefore = true;
  });
  client.on('disconnect', (packet) => {
    if (packet.reasonCode === sessionTakenOver) problem = `another program uses the client id ${options.clientId}`;
  });
  client.on('error', (error) => {
    const said = sayError(error);
    if (said !== problem) log.warn({ url, err: error }, 'trouble with the broker'); // not once a second
    problem = said;
  });
  client.on('close', () => {
    if (problem === '') problem = 'the connection was lost';
  });

  function health(): SourceHealth {
    if (!client.connected) {
      return {
        state: 'down',
        detail: `Not connected to ${url}: ${problem || 'connecting'}; it is tried again every second`,
      };
    }
    if (refusedFilters.size > 0) {
      return { state: 'down', detail: `${url} refused the subscription to ${[...refusedFilters].join(', ')}` };
    }
    if (dropped.count() > 0) {
      return {
        state: 'degraded',
        detail: `${url} has thrown away ${dropped.count()} messages since this start: raise its max_queued_messages`,
      };
    }
    return { state: 'ok', detail: `Connected to ${url}` };
  }

  return {
    url,
    acknowledge: (deliveries) => acknowledge(client, deliveries),
    health,
    setMappings(mappings) {
      heard.setMappings(mappings);
      hearWanted();
    },
    async listen(filter, forMs) {
      heard.listen(filter, Date.now() + forMs);
      hearWanted();
    },
    async pause() {
      paused = true;
    },
    async close() {
      clearTimeout(listenTimer);
      await Promise.race([client.endAsync(), new Promise((resolve) => setTimeout(resolve, 1_000).unref())]);
      client.end(true);
    },
  };
}

function connectClient(options: OutsideBrokerOptions): MqttClient {
  const { url, clientId, username, password, receiveMaximum = 1_000 } = options;
  if (!/^(mqtts?|wss?):\/\/./.test(url)) {
    throw new ConfigError(
      `BRANHEARTH_MQTT_URL must be an address such as mqtt://broker.example:1883; it was ${JSON.stringify(withoutSecrets(url))}`,
    );
  }
  return connect(url, {
    protocolVersion: 5,
    clientId,
    clean: false,
    properties: { sessionExpiryInterval: sessionExpiryS, receiveMaximum },
    keepalive: 30,
    reconnectPeriod: 1_000,
    reconnectOnConnackError: true, // a broker that is starting, or a password being changed, refuses at first
    connectTimeout: 10_000,
    log: () => {}, // called several times per message
    resubscribe: false, // done on every connect, so that retained status arrives each time
    ...(username === undefined ? {} : { username }),
    ...(password === undefined ? {} : { password }),
  });
}

/** The counter stands since the broker's start; ours counts from the first value seen. */
function createDropCounter(): { saw(text: string): void; count(): number } {
  let last: number | undefined;
  let since = 0;
  return {
    saw(text) {
      const value = Number(text);
      if (!Number.isFinite(value)) return;
      // A smaller value means that the broker was started again.
      if (last !== undefined) since += value >= last ? value - last : value;
      last = value;
    },
    count: () => since,
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
