/**
 * What the embedded broker remembers for aedes: retained messages, and of a QoS 2 message under way its identifier
 * alone. No session outlives its connection, so there is nothing to keep for one that is away; and what a publisher at
 * QoS 2 said is committed before its PUBREC, so that its payload need not wait here for the PUBREL.
 *
 * It has every method that aedes 1 calls on its `persistence`.
 */
import { Readable } from 'node:stream';
import type { AedesPublishPacket, Client } from 'aedes';
import { createTopicTree } from './topic-tree.ts';

interface UnderWay {
  readonly messageId?: number | undefined;
}

/** Retained messages and what is under way; the rest of what aedes asks for finds nothing. */
export function createBrokerMemory() {
  return {
    ...noSessions,
    ...noWills,
    ...createRetainedShelf(),
    ...createUnderWay(),
    async setup() {},
    async destroy() {},
  };
}

function createRetainedShelf() {
  const retained = createTopicTree<AedesPublishPacket>();

  function* matchingAny(filters: readonly string[]): Generator<AedesPublishPacket> {
    for (const filter of filters) yield* retained.matching(filter);
  }

  return {
    async storeRetained(packet: AedesPublishPacket) {
      if (packet.payload.length === 0)
        retained.delete(packet.topic); // [MQTT-3.3.1-10]
      else retained.set(packet.topic, { ...packet });
    },
    createRetainedStreamCombi(filters: readonly string[]) {
      return Readable.from(matchingAny(filters));
    },
  };
}

/** Identifiers of QoS 2 messages that wait for their PUBREL; of one connection, as no session outlives it. */
function createUnderWay() {
  const underWay = new WeakMap<Client, Set<number>>();

  return {
    async incomingStorePacket(client: Client, { messageId }: UnderWay) {
      if (messageId === undefined) return;
      const ids = underWay.get(client);
      if (ids) ids.add(messageId);
      else underWay.set(client, new Set([messageId]));
    },
    /** @throws when no such message is under way, which is how aedes learns that it is new [MQTT-4.3.3-2]. */
    async incomingGetPacket(client: Client, { messageId }: UnderWay) {
      if (messageId === undefined || !underWay.get(client)?.has(messageId)) throw notUnderWay;
      return { messageId };
    },
    async incomingDelPacket(client: Client, { messageId }: UnderWay) {
      if (messageId === undefined || !underWay.get(client)?.delete(messageId)) throw notUnderWay;
    },
    async cleanIncoming(client: Client) {
      underWay.delete(client);
    },
    /** Not asked by aedes, but by our own hooks. */
    isUnderWay: (client: Client, messageId: number | undefined): boolean =>
      messageId !== undefined && underWay.get(client)?.has(messageId) === true,
  };
}

/** Sessions end with their connection: nobody is away whose messages could be kept. */
const noSessions = {
  async subscriptionsByTopic() {
    return [];
  },
  async subscriptionsByClient() {
    return [];
  },
  async cleanSubscriptions() {},
  async addSubscriptions() {},
  async removeSubscriptions() {},
  async outgoingEnqueue() {},
  async outgoingEnqueueCombi() {},
  async outgoingUpdate() {},
  async outgoingClearMessageId() {},
  outgoingStream: () => Readable.from([]),
};

/** A will stands with its connection; it would be kept for other brokers that share this memory, and there are none. */
const noWills = {
  async putWill() {},
  async delWill() {},
  streamWill: () => Readable.from([]),
};

/** Made once: it is thrown for every new message at QoS 2, and nobody looks at where. */
const notUnderWay = new Error('no such message under way');
