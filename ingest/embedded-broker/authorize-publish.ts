/** What a client of the embedded broker may publish, and what becomes of it. */

import type { Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { isCommandTopic, isServersTopic } from '../../shared/published-topics.ts';
import type { Principal } from '../auth/auth-policy.ts';
import { largestPayloadBytes } from '../commit/inbound.ts';
import { cutLengthBytes } from './cut-payload.ts';
import { type Hook, type HookParts, socketOf } from './hook-parts.ts';
import { notItsTopic } from './not-its-topic.ts';

/** Where a message goes that its sender may not publish; below $SYS, so that # does not reach it [MQTT-4.7.2-1]. */
const withheldTopic = '$SYS/withheld';
/** A reading is cheaper than a packet, but one packet can hold thousands. */
const readingsPerPacket = 10;

/**
 * aedes sends the PUBACK when this calls back, and delivers to subscribers after it, so the commit happens here.
 * It comes for live messages and for wills alike. An error ends that client's connection, and nobody else's.
 */
export function authorizePublishWith(parts: HookParts): Hook<'authorizePublish'> {
  const { context, sink, principals } = parts;
  return (client, packet, done) => {
    const { topic } = packet;
    if (topic.startsWith('$SYS/')) return done(new Error('topics below $SYS belong to the broker'));
    if (parts.isPaused()) return done(new Error('the broker is closing'));
    // Not acknowledged and not kept in memory: the publisher still has it and tries again.
    if (!sink.hasRoom()) return done(new Error('readings cannot be stored now, come back later'));
    // Sent again before its PUBREL: it gets its PUBREC, and counts once [MQTT-4.3.3-2].
    if (packet.qos === 2 && client !== null && parts.isUnderWay(client, packet.messageId)) return sink.pass(done);
    const principal = client === null ? undefined : principals.get(client);
    const payload = Buffer.isBuffer(packet.payload) ? packet.payload : Buffer.from(packet.payload);
    const wrong = unpublishable(principal, topic, payload, context.root);
    if (wrong?.reason === 'not-its-topic' && isHeardByUs(principal, topic, payload)) {
      const site = principal?.site ?? undefined;
      Object.assign(packet, { topic: withheldTopic, payload: '', retain: false });
      spendFor(client, sink.take({ topic, payload, retained: false, site, confinedTo: site }, done));
      return;
    }
    if (wrong !== undefined) {
      // MQTT 3.1.1 knows no other answer than to acknowledge or to part [MQTT-3.3.5-2]; parting would cost the
      // probe what it says rightly, so this is refused for good, like a message that cannot be read.
      sink.refuse(wrong, topic, cutLengthBytes(payload) === undefined ? payload : '');
      Object.assign(packet, { topic: withheldTopic, payload: '', retain: false });
      return sink.pass(done);
    }
    if (packet.retain && !parts.retained.mayRetain(topic, payload.length, principal?.keyId ?? null))
      packet.retain = false;
    // Kept, it would be pressed again for whoever comes later.
    const retained = packet.retain && isCommandTopic(topic, context.root);
    if (retained) packet.retain = false;
    const readings = sink.take({ topic, payload, retained, site: principal?.site ?? undefined }, done);
    spendFor(client, readings);
  };

  function spendFor(client: Client | null, readings: number): void {
    if (readings > 1 && client !== null) parts.spend(socketOf(client), (readings - 1) / readingsPerPacket);
  }
}

/** A device that nobody knows, with the key of a site: shown to whoever maps it, and to nobody else at the broker. */
function isHeardByUs(principal: Principal | undefined, topic: string, payload: Buffer): boolean {
  return principal?.rights?.mayBeHeard(topic) === true && cutLengthBytes(payload) === undefined;
}

/** Why a message may not be published. */
function unpublishable(
  principal: Principal | undefined,
  topic: string,
  payload: Buffer,
  root: string,
): ReadingError | undefined {
  if (principal?.rights?.mayPublish(topic) === false || isServersTopic(topic, root))
    return notItsTopic('refusal.publish', principal, topic);
  const cutBytes = cutLengthBytes(payload);
  if (cutBytes === undefined) return undefined;
  const said = message('refusal.too-large', { mostCount: largestPayloadBytes, foundCount: cutBytes });
  return new ReadingError('payload-too-large', said);
}
