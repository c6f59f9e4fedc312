// A broker of a few lines, so that every byte mqtt.js writes is seen. Should a later mqtt.js acknowledge by itself,
// wait for each message's fate before the next, or end the connection over the held-back callback, these tests fail.
import { createServer, type Server, type Socket } from 'node:net';
import { connect, type IPublishPacket, type MqttClient } from 'mqtt';
import { afterEach, expect, test } from 'vitest';
import { acknowledge, type Delivery, deferAcknowledgements } from '../../ingest/client/deferred-acks.ts';
import { until } from '../helpers/until.ts';

const opened: { server?: Server; client?: MqttClient } = {};
afterEach(async () => {
  await opened.client?.endAsync(true);
  opened.server?.close();
});

/** PUBLISH at QoS 1 or 0 on topic "t" (MQTT 5 section 3.3). */
const publish = (id: number, payload: string) =>
  Buffer.from([0x32, 6 + payload.length, 0, 1, 0x74, id >> 8, id & 0xff, 0, ...Buffer.from(payload)]);
const publishQos0 = (payload: string) =>
  Buffer.from([0x30, 4 + payload.length, 0, 1, 0x74, 0, ...Buffer.from(payload)]);
const connack = Buffer.from([0x20, 3, 0, 0, 0]);

async function start() {
  const sockets: Socket[] = [];
  const written: Buffer[][] = [];
  const server = createServer((socket) => {
    const chunks: Buffer[] = [];
    sockets.push(socket);
    written.push(chunks);
    socket.once('data', () => {
      socket.write(connack);
      socket.on('data', (chunk) => chunks.push(chunk));
    });
    socket.on('error', () => {});
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const got: { packet: IPublishPacket; delivery: Delivery | undefined; next: () => void }[] = [];
  const errors: Error[] = [];
  const client = connect(`mqtt://127.0.0.1:${port}`, { protocolVersion: 5, keepalive: 0, reconnectPeriod: 20 });
  client.on('error', (error) => errors.push(error));
  let hold = false;
  deferAcknowledgements(client, (packet, delivery, next) => {
    got.push({ packet, delivery, next });
    if (!hold) next();
  });
  Object.assign(opened, { server, client });
  await until('the connection', () => (client.connected ? true : undefined));
  return { sockets, written, got, errors, client, holdNext: () => (hold = true), letNext: () => (hold = false) };
}

const payloads = (got: { packet: IPublishPacket }[]) => got.map(({ packet }) => packet.payload.toString());

test('mqtt.js hands over message after message and acknowledges none of them', async () => {
  const { sockets, written, got, errors } = await start();
  sockets[0]?.write(Buffer.concat([publish(1, 'a'), publish(2, 'b'), publishQos0('c'), publish(0x1234, 'd')]));
  await until('four messages', () => (got.length === 4 ? true : undefined));
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(payloads(got)).toEqual(['a', 'b', 'c', 'd']);
  expect(got.map(({ delivery }) => delivery?.messageId)).toEqual([1, 2, undefined, 0x1234]);
  expect([Buffer.concat(written[0] ?? []).length, errors]).toEqual([0, []]);
});

test('acknowledge() writes the PUBACKs of a batch in one piece, in the order received', async () => {
  const { sockets, written, got, client } = await start();
  sockets[0]?.write(Buffer.concat([publish(1, 'a'), publishQos0('b'), publish(0x1234, 'c')]));
  await until('three messages', () => (got.length === 3 ? true : undefined));
  expect(
    acknowledge(
      client,
      got.map(({ delivery }) => delivery),
    ),
  ).toBe(2);
  await until('the PUBACKs', () => (written[0]?.length ? true : undefined));
  expect(written[0]).toEqual([Buffer.from([0x40, 2, 0, 1, 0x40, 2, 0x12, 0x34])]);
});

test('a message of an earlier connection is not acknowledged on a later one', async () => {
  const { sockets, written, got, client } = await start();
  sockets[0]?.write(publish(7, 'a'));
  await until('the message', () => (got.length === 1 ? true : undefined));
  sockets[0]?.destroy();
  await until('the next connection', () => (sockets.length === 2 && client.connected ? true : undefined));
  sockets[1]?.write(publish(7, 'b'));
  await until('the second message', () => (got.length === 2 ? true : undefined));
  expect(acknowledge(client, [got[0]?.delivery])).toBe(0);
  expect(acknowledge(client, [got[1]?.delivery])).toBe(1);
  await until('the PUBACK', () => (written[1]?.length ? true : undefined));
  expect(Buffer.concat(written[1] ?? [])).toEqual(Buffer.from([0x40, 2, 0, 7]));
});

test('nothing more is handed over until `next` is called', async () => {
  const { sockets, got, holdNext, letNext } = await start();
  holdNext();
  sockets[0]?.write(Buffer.concat([publish(1, 'a'), publish(2, 'b'), publish(3, 'c')]));
  await until('the first message', () => (got.length === 1 ? true : undefined));
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(payloads(got)).toEqual(['a']);
  letNext();
  got[0]?.next();
  await until('the others', () => (got.length === 3 ? true : undefined));
});
