/**
 * Mqtt.js, but a QoS 1 message is acknowledged when we say so. It never acknowledges on another connection than the one
 * a message came on: the broker delivers it again there.
 */
import type { IPublishPacket, MqttClient } from 'mqtt';

/** A QoS 1 message that waits for its PUBACK. */
export interface Delivery {
  readonly stream: MqttClient['stream'];
  readonly messageId: number;
}

/**
 * mqtt.js 5 sends the PUBACK of a QoS 1 message when `handleMessage` calls back without an error, and reads the
 * next message only then. Waiting for the commit there would mean one message per commit. So the callback is given
 * an error: mqtt.js then goes on to the next message without a PUBACK (its lib/handlers/publish.js), and the
 * PUBACKs are written here after the commit. tests/ingest/deferred-acks.test.ts fails should mqtt.js ever change this.
 */
const acknowledgedLater = new Error('acknowledged after the commit');

/** @param handle Gets each message; `next` lets the following one in. `delivery` is undefined at QoS 0. */
export function deferAcknowledgements(
  client: MqttClient,
  handle: (packet: IPublishPacket, delivery: Delivery | undefined, next: () => void) => void,
): void {
  client.handleMessage = (packet, callback) => {
    // QoS 2 does not occur: we subscribe at QoS 1 at most [MQTT-3.8.4-8].
    if (packet.qos === 1 && packet.messageId !== undefined) {
      const delivery = { stream: client.stream, messageId: packet.messageId };
      handle(packet, delivery, () => callback(acknowledgedLater));
    } else {
      handle(packet, undefined, () => callback());
    }
  };
}

/** PUBACK with reason 0x00 in its shortest form (MQTT 5 section 3.4.2.1), in the order received [MQTT-4.6.0-2]. */
export function acknowledge(client: MqttClient, deliveries: readonly (Delivery | undefined)[]): number {
  const { stream } = client;
  const bytes = Buffer.allocUnsafe(4 * deliveries.length);
  let length = 0;
  for (const delivery of deliveries) {
    if (delivery === undefined || delivery.stream !== stream) continue;
    length = bytes.writeUInt8(0x40, length);
    length = bytes.writeUInt8(2, length);
    length = bytes.writeUInt16BE(delivery.messageId, length);
  }
  if (length > 0 && client.connected && !stream.destroyed) stream.write(bytes.subarray(0, length));
  return length / 4;
}
