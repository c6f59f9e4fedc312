/**
 * What the embedded broker asks us about every connection and message. It never lets a message be acknowledged before
 * its commit, or be heard by anybody when its sender may not publish it.
 */
import type { Socket } from 'node:net';
import type { AedesOptions, Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import { isWarningTopic } from '../../shared/probe-key.ts';
import type { Admission, AuthPolicy, Principal } from '../auth/auth-policy.ts';
import type { RefusedReason } from '../auth/connection-attempts.ts';
import type { Sink, SourceContext } from '../commit/inbound-source.ts';
import { largestPayloadBytes } from '../commit/intake.ts';
import { addressOf } from './arrivals.ts';
import { clientIdFor, shownClientId } from './client-ids.ts';
import { cutLengthBytes } from './cut-payload.ts';
import type { KeyShares } from './key-shares.ts';
import { neverWaitFor } from './never-wait.ts';
import type { RetainedMessages } from './retained-messages.ts';
import { createSlowListeners } from './slow-listeners.ts';

/** Called once with the message's fate: nothing to acknowledge it, an error to part from the publisher without. */
export type EmbeddedTicket = (error?: Error | null) => void;

type Hook<Name extends keyof AedesOptions> = NonNullable<AedesOptions[Name]>;

export interface HookParts {
  readonly context: SourceContext;
  readonly authPolicy: AuthPolicy;
  readonly sink: Sink<EmbeddedTicket>;
  readonly retained: RetainedMessages;
  readonly shares: KeyShares;
  isPaused(): boolean;
  letIn(socket: Socket, principal: Principal): void;
  /** What a message cost beside its length, in short packets. */
  spend(socket: Socket, packets: number): void;
  /** A QoS 2 message that was taken in already and waits for its PUBREL. */
  isUnderWay(client: Client, messageId: number | undefined): boolean;
}

export interface BrokerHooks {
  readonly options: AedesOptions;
  principalOf(client: Client): Principal | undefined;
}

/** Where a message goes that its sender may not publish; below $SYS, so that # does not reach it [MQTT-4.7.2-1]. */
const withheldTopic = '$SYS/withheld';
/** Of a client id as the broker knows it, with its key; a server must take 23 bytes and may take more [MQTT-3.1.3-5]. */
const longestClientId = 512;
const longestFilterBytes = 1024;
const mostFilterLevels = 32;
/** A reading is cheaper than a packet, but one packet can hold thousands. */
const readingsPerPacket = 10;
/** The longest that can be asked for (section 3.1.2.10). */
const longestKeepAliveS = 65_535;

/** MQTT 3.1.1 table 3.1: 2 = identifier rejected, 3 = server unavailable, 4 = bad user name or password, 5 = not authorized. */
const returnCodes: Partial<Record<RefusedReason, number>> = {
  'too-long-client-id': 2, // [MQTT-3.1.3-9]
  'too-many-of-key': 3,
  'no-key': 5,
};

export function brokerHooks(parts: HookParts): BrokerHooks {
  const { context, authPolicy, sink, retained, shares } = parts;
  const principals = new WeakMap<Client, Principal>();
  const slow = createSlowListeners();
  let unheard = 0;

  // Sessions end with their connection: the packet is changed before the broker reads it.
  const preConnect: Hook<'preConnect'> = (_client, packet, done) => {
    packet.clean = true;
    packet.clientId = clientIdFor(packet.username, packet.clientId);
    // One that is never silent for too long would hold its place for ever; a server may part from the inactive
    // whatever they ask for (section 3.1.2.10, non-normative), and after a day they come back.
    if (packet.keepalive === 0) packet.keepalive = longestKeepAliveS;
    done(null, true);
  };

  /** The policy's answer, unless there is no room for whom it lets in. */
  function roomFor(client: Client, admission: Admission): Admission {
    const { keyId } = admission;
    if (client.id.length > longestClientId) return { refused: 'too-long-client-id', keyId };
    if ('refused' in admission || shares.mayConnect(admission, client.id)) return admission;
    return { refused: 'too-many-of-key', keyId };
  }

  const authenticate: Hook<'authenticate'> = (client, username, password, done) => {
    const socket = socketOf(client);
    if (socket.destroyed) return; // and aedes has parted from it
    const address = addressOf(socket);
    const admission = roomFor(client, authPolicy.admit({ address, username, password }));
    if ('refused' in admission) {
      const { refused: reason, keyId } = admission;
      authPolicy.connectionAttempts.count({ address, clientId: shownClientId(client.id), keyId, reason });
      const error = Object.assign(new Error(`turned away: ${reason}`), { returnCode: returnCodes[reason] ?? 4 });
      setTimeout(() => done(error, false), authPolicy.connectionAttempts.waitMs(address)).unref();
      return;
    }
    principals.set(client, admission);
    shares.connected(admission, client.id);
    socket.once('close', () => {
      shares.parted(admission, client.id);
      shares.giveAllFilters({ client, principal: admission });
    });
    neverWaitFor(client);
    parts.letIn(socket, admission);
    done(null, true);
  };

  /** Why a message may not be published. */
  function unpublishable(principal: Principal | undefined, topic: string, payload: Buffer): ReadingError | undefined {
    if (principal?.rights?.mayPublish(topic) === false || isWarningTopic(topic, context.root))
      return notItsTopic(principal, 'publish on', topic);
    const cutBytes = cutLengthBytes(payload);
    if (cutBytes === undefined) return undefined;
    const most = `Cannot accept the message as it must be at most ${largestPayloadBytes} bytes`;
    return new ReadingError('payload-too-large', `${most}: found ${cutBytes}`);
  }

  /**
   * aedes sends the PUBACK when this calls back, and delivers to subscribers after it, so the commit happens here.
   * It comes for live messages and for wills alike. An error ends that client's connection, and nobody else's.
   */
  const authorizePublish: Hook<'authorizePublish'> = (client, packet, done) => {
    const { topic } = packet;
    if (topic.startsWith('$SYS/')) return done(new Error('topics below $SYS belong to the broker'));
    if (parts.isPaused()) return done(new Error('the broker is closing'));
    // Not acknowledged and not kept in memory: the publisher still has it and tries again.
    if (!sink.hasRoom()) return done(new Error('readings cannot be stored now, come back later'));
    // Sent again before its PUBREL: it gets its PUBREC, and counts once [MQTT-4.3.3-2].
    if (packet.qos === 2 && client !== null && parts.isUnderWay(client, packet.messageId)) return sink.pass(done);
    const principal = client === null ? undefined : principals.get(client);
    const payload = Buffer.isBuffer(packet.payload) ? packet.payload : Buffer.from(packet.payload);
    const wrong = unpublishable(principal, topic, payload);
    if (wrong !== undefined) {
      // MQTT 3.1.1 knows no other answer than to acknowledge or to part [MQTT-3.3.5-2]; parting would cost the
      // probe what it says rightly, so this is refused for good, like a message that cannot be read.
      sink.refuse(wrong, topic, cutLengthBytes(payload) === undefined ? payload : '');
      Object.assign(packet, { topic: withheldTopic, payload: '', retain: false });
      return sink.pass(done);
    }
    if (packet.retain && !retained.mayRetain(topic, payload.length, principal?.keyId ?? null)) packet.retain = false;
    const readings = sink.take({ topic, payload, retained: false, site: principal?.site ?? undefined }, done);
    if (readings > 1 && client !== null) parts.spend(socketOf(client), (readings - 1) / readingsPerPacket);
  };

  /** Why a filter may not be heard; when it may, it is counted. */
  function unhearable(client: Client, filter: string): ReadingError | undefined {
    const principal = principals.get(client);
    if (principal?.rights?.mayHear(filter) === false) return notItsTopic(principal, 'listen to', filter);
    const wrong = filterProblem(filter);
    if (wrong !== undefined || shares.takeFilter({ client, principal }, filter)) return wrong;
    return tooManyFilters(`${whoIs(principal)} hear more topic filters than it does already: found ${filter}`);
  }

  const authorizeSubscribe: Hook<'authorizeSubscribe'> = (client, subscription, done) => {
    const { topic: filter } = subscription;
    const wrong = unhearable(client, filter);
    if (wrong === undefined) return done(null, subscription);
    sink.refuse(wrong, filter, '');
    done(null, null); // SUBACK 0x80 (MQTT 3.1.1 section 3.9.3)
  };

  /** What one who listens does not fetch must not fill the memory of this process. */
  const authorizeForward: Hook<'authorizeForward'> = (client, packet) => {
    if (slow.mayHear(socketOf(client))) return packet;
    if (unheard === 0)
      context.log.warn({ client: client.id }, 'somebody listens slower than messages come; some pass by');
    unheard += 1;
    return null;
  };

  return {
    options: { preConnect, authenticate, authorizePublish, authorizeSubscribe, authorizeForward },
    principalOf: (client) => principals.get(client),
  };
}

export function socketOf(client: Client): Socket {
  return client.conn as Socket; // we hand nothing else to the broker
}

const whoIs = (principal: Principal | undefined) =>
  principal?.keyId == null ? 'a program without a key' : `the key ${principal.keyId}`;

function notItsTopic(principal: Principal | undefined, what: string, topic: string): ReadingError {
  return new ReadingError(
    'not-its-topic',
    `Cannot let ${whoIs(principal)} ${what} a topic it does not reach: found ${topic}`,
  );
}

function tooManyFilters(what: string): ReadingError {
  return new ReadingError('too-many-filters', `Cannot let ${what}`);
}

/** Each level of a filter takes memory of its own, for as long as somebody listens. */
function filterProblem(filter: string): ReadingError | undefined {
  const bytes = Buffer.byteLength(filter);
  if (bytes > longestFilterBytes)
    return tooManyFilters(`a topic filter be longer than ${longestFilterBytes} bytes: found ${bytes}`);
  const levels = filter.split('/').length;
  if (levels > mostFilterLevels)
    return tooManyFilters(`a topic filter have more than ${mostFilterLevels} levels: found ${levels}`);
  return undefined;
}
