/** What keeps a probe out is seen by the server and named, over real sockets. */
import { connect } from 'node:net';
import { connectAsync } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import { firstMessageAnswerSchema } from '../../shared/contracts/first-message.ts';
import { madeKeySchema } from '../../shared/contracts/keys.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';
import { hello } from '../ingest/raw-mqtt.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function open() {
  const { dataDir } = await makeDataDir();
  const one = await openTestInstallation(dataDir);
  closing.push(() => one.closeAndRemove());
  await one.app.listen({ host: '127.0.0.1', port: 0 });
  const { port } = one.app.server.address() as { port: number };
  const ask = async () => {
    const answer = await one.app.inject({ url: '/api/ingest/first-message' });
    return firstMessageAnswerSchema.parse(answer.json());
  };
  const makeKey = async () => {
    const payload = { name: 'Bed board', site: 'yard', probe: null, foreign: [], hears: 'own' };
    return madeKeySchema.parse((await one.app.inject({ method: 'POST', url: '/api/keys', payload })).json());
  };
  const { url } = one.installation.ingest;
  return { ...one, ask, makeKey, mqttUrl: url, mqttPort: Number(new URL(url).port), pagesPort: port };
}

const send = (port: number, bytes: Uint8Array | string): Promise<void> =>
  new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1' }, () => socket.write(bytes));
    socket.on('error', () => resolve());
    socket.on('close', () => resolve());
    socket.resume();
  });

/** ClientHello of TLS 1.2, its record header and the first of its contents (RFC 5246 sections 6.2.1 and 7.4.1.2). */
const clientHello = Buffer.from([0x16, 0x03, 0x01, 0x00, 0x2f, 0x01, 0x00, 0x00, 0x2b, 0x03, 0x03]);

describe('a connection to the wrong place is named', () => {
  const wrong: [what: string, reason: string, act: (at: { mqttPort: number; pagesPort: number }) => Promise<void>][] = [
    ['MQTT at the port of the pages', 'pages-port', ({ pagesPort }) => send(pagesPort, hello('bed-board'))],
    ['a request at the port of the broker', 'no-mqtt', ({ mqttPort }) => send(mqttPort, 'GET / HTTP/1.1\r\n\r\n')],
    ['TLS at the port without', 'tls-at-plain-port', ({ mqttPort }) => send(mqttPort, clientHello)],
  ];
  for (const [what, reason, act] of wrong) {
    test(what, async () => {
      const one = await open();
      await act(one);
      const { turnedAway } = await until('the refused connection', async () => {
        const answer = await one.ask();
        return answer.turnedAway.length > 0 ? answer : undefined;
      });
      expect(turnedAway.map((line) => [line.reason, line.count])).toEqual([[reason, 1]]);
    });
  }
});

test('a request that is no MQTT at the port of the pages is not taken for a device', async () => {
  const one = await open();
  await send(one.pagesPort, Buffer.from([0x10, 0x02, 0x00, 0x00]));
  await send(one.pagesPort, 'HELLO\r\n\r\n');
  expect((await one.ask()).turnedAway).toEqual([]);
});

test('a wrong key is named, with what it is called where it is known', async () => {
  const one = await open();
  const { id } = await one.makeKey();
  const come = (username: string) => connectAsync(one.mqttUrl, { username, password: 'guess', reconnectPeriod: 0 });
  await expect(come(id)).rejects.toThrow();
  await expect(come('key-of-nobody')).rejects.toThrow();
  const { turnedAway } = await one.ask();
  expect(turnedAway.map(({ reason, key }) => [reason, key])).toEqual([
    ['unknown-key', null],
    ['wrong-secret', 'Bed board'],
  ]);
});

test('a topic that the key does not reach, one that nobody reads, and what could not be read', async () => {
  const one = await open();
  const { id, secret } = await one.makeKey();
  const device = await connectAsync(one.mqttUrl, { username: id, password: secret, reconnectPeriod: 0 });
  closing.push(() => device.endAsync(true));
  await device.publishAsync('piles/barn/p1/reading', '{"temperature":41}', { qos: 1 });
  const refused = (await one.ask()).refused;
  expect([refused?.reason, refused?.last.topic]).toEqual(['not-its-topic', 'piles/barn/p1/reading']);
  expect((await one.ask()).first).toBeNull(); // it was not taken in

  // The key of a site reaches a topic of nobody's so far that it is shown.
  await device.publishAsync('loft/7/up', '{"temp":412}', { qos: 1 });
  const neighbour = await connectAsync(one.mqttUrl, { reconnectPeriod: 0 });
  closing.push(() => neighbour.endAsync(true));
  await neighbour.publishAsync(
    'tele/bed/SENSOR',
    '{"Time":"2026-11-29T20:00:00","DS18B20":{"Id":"00000483C23A","Temperature":41.5},"TempUnit":"C"}',
    {
      qos: 1,
    },
  );
  const heard = await one.ask();
  expect(heard.unused.map(({ topic, payload }) => [topic, payload])).toEqual([['loft/7/up', '{"temp":412}']]);
  expect(heard.first?.topic).toBe('loft/7/up');

  await device.publishAsync('piles/yard/p1/reading', '{"temperature":"warm"}', { qos: 1 });
  const unread = (await one.ask()).refused;
  expect([unread?.reason, unread?.last.topic, unread?.last.payload]).toEqual([
    'wrong-type',
    'piles/yard/p1/reading',
    '{"temperature":"warm"}',
  ]);
});

test('a broker that answers this machine only says so', async () => {
  const one = await open();
  expect((await one.ask()).broker).toMatchObject({ host: '127.0.0.1', port: one.mqttPort, onlyHere: true });
});
