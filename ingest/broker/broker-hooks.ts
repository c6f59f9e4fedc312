/**
 * ingest/broker/broker-hooks.ts: what the embedded broker asks us about every connection and message.
 *
 * Takes:  the door, the sink, what may be retained.
 * Gives:  aedes's hooks, and who speaks on a connection.
 * Never:  lets a message be acknowledged before its commit, or be heard by anybody when its sender may not publish it.
 */
import type { Socket } from 'node:net';
import type { AedesOptions, Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import { isWarningTopic } from '../../shared/probe-key.ts';
import type { Door, Speaker } from '../door/door.ts';
import { addressOf } from './arrivals.ts';
import { clientIdFor, shownClientId } from './client-ids.ts';
import type { Sink, SourceContext } from './inbound-source.ts';
import { neverWaitFor } from './never-wait.ts';
import type { RetainedShelf } from './retained-shelf.ts';

/** Called once with the message's fate: nothing to acknowledge it, an error to part from the publisher without. */
export type EmbeddedTicket = (error?: Error | null) => void;

type Hook<Name extends keyof AedesOptions> = NonNullable<AedesOptions[Name]>;

export interface HookParts {
  readonly context: SourceContext;
  readonly door: Door;
  readonly sink: Sink<EmbeddedTicket>;
  readonly retained: RetainedShelf;
  isPaused(): boolean;
  letIn(socket: Socket, speaker: Speaker): void;
}

export interface BrokerHooks {
  readonly options: AedesOptions;
  speakerOf(client: Client): Speaker | undefined;
}

/** What waits for one who listens; above it messages pass by it. */
const unheardBytes = 1024 * 1024;
/** Where a message goes that its sender may not publish; below $SYS, so that # does not reach it [MQTT-4.7.2-1]. */
const withheldTopic = '$SYS/withheld';

export function brokerHooks({ context, door, sink, retained, isPaused, letIn }: HookParts): BrokerHooks {
  const speakers = new WeakMap<Client, Speaker>();
  let unheard = 0;

  // Sessions end with their connection: the packet is changed before the broker reads it.
  const preConnect: Hook<'preConnect'> = (_client, packet, done) => {
    packet.clean = true;
    packet.clientId = clientIdFor(packet.username, packet.clientId);
    done(null, true);
  };

  const authenticate: Hook<'authenticate'> = (client, username, password, done) => {
    const socket = socketOf(client);
    const address = addressOf(socket);
    const admission = door.admit({ address, username, password });
    if ('refused' in admission) {
      const { refused: reason, keyId } = admission;
      door.knocks.count({ address, clientId: shownClientId(client.id), keyId, reason });
      // MQTT 3.1.1 table 3.1: 4 = bad user name or password, 5 = not authorized.
      const error = Object.assign(new Error(`turned away: ${reason}`), { returnCode: reason === 'no-key' ? 5 : 4 });
      setTimeout(() => done(error, false), door.knocks.waitMs(address)).unref();
      return;
    }
    speakers.set(client, admission);
    neverWaitFor(client);
    letIn(socket, admission);
    done(null, true);
  };

  /**
   * aedes sends the PUBACK when this calls back, and delivers to subscribers after it, so the commit happens here.
   * It comes for live messages and for wills alike. An error ends that client's connection, and nobody else's.
   */
  const authorizePublish: Hook<'authorizePublish'> = (client, packet, done) => {
    const { topic } = packet;
    if (topic.startsWith('$SYS/')) return done(new Error('topics below $SYS belong to the broker'));
    if (isPaused()) return done(new Error('the broker is closing'));
    // Not acknowledged and not kept in memory: the publisher still has it and tries again.
    if (!sink.hasRoom()) return done(new Error('readings cannot be stored now, come back later'));
    const speaker = client === null ? undefined : speakers.get(client);
    const payload = Buffer.isBuffer(packet.payload) ? packet.payload : Buffer.from(packet.payload);
    if (speaker?.rights?.mayPublish(topic) === false || isWarningTopic(topic, context.root)) {
      // MQTT 3.1.1 knows no other answer than to acknowledge or to part [MQTT-3.3.5-2]; parting would cost the
      // probe what it says rightly, so this is refused for good, like a message that cannot be read.
      sink.refuse(notItsTopic(speaker, 'publish on', topic), topic, payload);
      Object.assign(packet, { topic: withheldTopic, payload: '', retain: false });
      return sink.pass(done);
    }
    if (packet.retain && !retained.mayRetain(topic, payload.length, speaker?.keyId ?? null)) packet.retain = false;
    sink.take({ topic, payload, retained: false }, done);
  };

  const authorizeSubscribe: Hook<'authorizeSubscribe'> = (client, subscription, done) => {
    const speaker = speakers.get(client);
    if (speaker?.rights?.mayHear(subscription.topic) !== false) return done(null, subscription);
    sink.refuse(notItsTopic(speaker, 'listen to', subscription.topic), subscription.topic, '');
    done(null, null); // SUBACK 0x80 (MQTT 3.1.1 section 3.9.3)
  };

  /** What one who listens does not fetch must not fill the memory of this process. */
  const authorizeForward: Hook<'authorizeForward'> = (client, packet) => {
    if (socketOf(client).writableLength <= unheardBytes) return packet;
    if (unheard === 0)
      context.log.warn({ client: client.id }, 'somebody listens slower than messages come; some pass by');
    unheard += 1;
    return null;
  };

  return {
    options: { preConnect, authenticate, authorizePublish, authorizeSubscribe, authorizeForward },
    speakerOf: (client) => speakers.get(client),
  };
}

export function socketOf(client: Client): Socket {
  return client.conn as Socket; // we hand nothing else to the broker
}

function notItsTopic(speaker: Speaker | undefined, what: string, topic: string): ReadingError {
  const who = speaker?.keyId == null ? 'a program without a key' : `the key ${speaker.keyId}`;
  return new ReadingError('not-its-topic', `Cannot let ${who} ${what} a topic it does not reach: found ${topic}`);
}
