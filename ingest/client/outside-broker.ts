/**
 * Readings from a broker that somebody else runs. It never starts a clean session: what is published while we are away
 * waits at the broker (MQTT 5 section 3.1.2.11.2).
 */

import { connect, type IPublishPacket, type MqttClient } from 'mqtt';
import { message } from '../../shared/messages/message.ts';
import { partHealth } from '../../shared/part-health.ts';
import type { Sink, Source, SourceContext, SourceHealth } from '../commit/inbound-source.ts';
import { matchFilter } from '../mapping/topic-filter.ts';
import { BrokerLine } from './broker-line.ts';
import { checkedUrl, connectOptions } from './connect-options.ts';
import { acknowledge, type Delivery, deferAcknowledgements } from './deferred-acks.ts';
import { createDropCounter, type DropCounter, droppedTopic } from './drop-counter.ts';
import { createListener, type Listener } from './listener.ts';
import type { OutsideBrokerOptions } from './outside-options.ts';
import { audienceOf } from './subscription-ids.ts';
import { Subscriptions } from './subscriptions.ts';

/** What several sessions of one process need beside a source. */
export interface OutsideSession extends Source<OutsideTicket> {
  confirm(): void;
  publish(topic: string, text: string): void;
  /** The connection now. */
  line(): Delivery['stream'];
}

export type OutsideTicket = Delivery | undefined;

interface Opened {
  readonly client: MqttClient;
  readonly url: string;
  readonly rootFilter: string;
  readonly line: BrokerLine;
  readonly subscriptions: Subscriptions;
  readonly listener: Listener;
  readonly dropped: DropCounter;
}

export function openOutsideBroker(
  options: OutsideBrokerOptions,
  context: SourceContext,
  sink: Sink<OutsideTicket>,
): OutsideSession {
  const { log } = context;
  const { onlooker = false, barriers, onStanding } = options;
  const url = checkedUrl(options.url);
  const rootFilter = options.rootFilter ?? `${context.root}/+/+/+`;
  const dropped = createDropCounter();
  let paused = false;

  const client = connect(options.url, connectOptions(options, onlooker ? 'onlooking' : 'lasting'));
  const subscriptions = new Subscriptions(client, log, {
    root: rootFilter,
    alwaysQos0: droppedTopic,
    qos: onlooker ? 0 : 1,
    ...(barriers && { also: barriers.filter }),
    ...(onStanding && { standing: () => onStanding(line.hadSession) }),
  });
  const line = new BrokerLine(client, { options, url, log }, () => subscriptions.renew());
  const listener = createListener(
    () => connect(options.url, connectOptions(options, 'passing')),
    (topic, payload, isRetained) => {
      if (matchFilter(rootFilter, topic) === undefined) sink.show(topic, payload, isRetained);
    },
  );
  const parts = { barriers, dropped, rootFilter, sink };
  deferAcknowledgements(client, (packet, delivery, next) => {
    if (paused) return next(); // unacknowledged, so it comes again next time
    passOn(parts, packet, delivery);
    if (sink.hasRoom()) next();
    else sink.whenRoom(next); // the socket is not read meanwhile, and the broker keeps the rest
  });
  return sessionOf({ client, url, rootFilter, line, subscriptions, listener, dropped }, () => {
    paused = true;
  });
}

interface PassOnParts extends Pick<Opened, 'dropped' | 'rootFilter'> {
  readonly barriers: OutsideBrokerOptions['barriers'];
  readonly sink: Sink<OutsideTicket>;
}

/** To whom one message of the broker goes. */
function passOn(
  { barriers, dropped, rootFilter, sink }: PassOnParts,
  packet: IPublishPacket,
  delivery: Delivery | undefined,
): void {
  const payload = Buffer.isBuffer(packet.payload) ? packet.payload : Buffer.from(packet.payload);
  if (packet.topic === droppedTopic) {
    dropped.saw(payload.toString('utf8'));
    return;
  }
  if (barriers && matchFilter(barriers.filter, packet.topic) !== undefined) {
    barriers.heard(packet.topic, payload.toString('utf8'));
    sink.pass(delivery);
    return;
  }
  const audience = audienceOf(rootFilter, packet.topic, packet.properties?.subscriptionIdentifier);
  const message = { topic: packet.topic, payload, retained: packet.retain };
  if (audience === 'everybody') sink.take(message, delivery);
  else if (audience === 'nobody') sink.pass(delivery);
  else sink.take({ ...message, cameBy: audience }, delivery);
}

/** @param stop Takes no more messages. */
function sessionOf(opened: Opened, stop: () => void): OutsideSession {
  const { client, url, line, subscriptions, listener } = opened;
  return {
    url,
    acknowledge: (deliveries) => acknowledge(client, deliveries),
    health: () => healthOf(opened),
    confirm: () => line.confirm(),
    publish: (topic, text) => void client.publish(topic, text, { qos: 1 }, () => {}),
    // A broker that is away gets only the newest, when it is said again: nothing is queued for it here.
    say: (_site, { topic, text, retain }) =>
      void (client.connected && client.publish(topic, text, { qos: 1, retain }, () => {})),
    line: () => client.stream,
    setForeign: (filters) => subscriptions.setForeign(filters),
    listen: listener.listen,
    async pause() {
      stop();
      await listener.close();
    },
    async close() {
      await Promise.race([client.endAsync(), new Promise((resolve) => setTimeout(resolve, 1_000).unref())]);
      client.end(true);
    },
  };
}

function healthOf({ client, url, line, subscriptions, dropped, rootFilter }: Opened): SourceHealth {
  if (!client.connected) {
    const problemText = line.problem || 'connecting';
    return partHealth('down', message('health.broker.away', { urlText: url, problemText }));
  }
  const refused = subscriptions.refused();
  if (refused.length > 0) {
    const state = refused.includes(rootFilter) ? 'down' : 'degraded';
    return partHealth(state, message('health.broker.refused', { urlText: url, filtersText: refused.join(', ') }));
  }
  const droppedCount = dropped.count();
  if (droppedCount === 0) return partHealth('ok', message('health.broker.connected', { urlText: url }));
  return partHealth('degraded', message('health.broker.dropped', { urlText: url, droppedCount }));
}
