// Connections that mean harm, against the embedded broker over real sockets: broken frames, half-open and slow ones,
// crowds, wills and retained messages on others' topics. The process lives, its memory stays bounded, an honest probe
// beside them is served all the while.
import { createHash } from 'node:crypto';
import { connect, type Socket } from 'node:net';
import fc from 'fast-check';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import { createAuthPolicy } from '../../ingest/auth/auth-policy.ts';
import { liveClock } from '../../shared/clock.ts';
import { until } from '../helpers/until.ts';
import { openIngest } from './open-ingest.ts';
import { hello, lengthBytes, packet, publish, text } from './raw-mqtt.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const secretSha256 = createHash('sha256').update('secret').digest('hex');
const seed = 20310405;

async function start(options: { maxConnections?: number } = {}) {
  const authPolicy = createAuthPolicy({ clock: liveClock, root: 'piles' });
  authPolicy.setKeys([{ id: 'key-a', secretSha256, site: 'saltmere-yard', probe: 'evil', foreign: [], hears: 'own' }]);
  const opened = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1', authPolicy, ...options });
  closing.push(() => opened.ingest.close());
  const port = Number(new URL(opened.ingest.url).port);
  const honest = await connectAsync(opened.ingest.url, { reconnectPeriod: 0, clientId: 'honest' });
  honest.on('error', () => {});
  let parted = false;
  honest.on('close', () => {
    parted = true;
  });
  closing.push(() => honest.endAsync(true));
  let said = 0;
  /** The honest probe says something, and it is kept. */
  const serve = async () => {
    said += 1;
    await honest.publishAsync(
      'piles/saltmere-yard/honest/reading',
      JSON.stringify({ temperature: 41.5, time: Date.now() + said }),
      { qos: 1 },
    );
    const kept = [...opened.store.kept.values()].filter(({ probe }) => probe === 'honest');
    expect([kept.length, parted]).toEqual([said, false]);
  };
  const dial = (bytes: Uint8Array = new Uint8Array(), localAddress = '127.0.0.1'): Promise<Socket> =>
    new Promise((resolve) => {
      const socket = connect({ port, host: '127.0.0.1', localAddress });
      socket.on('error', () => resolve(socket));
      socket.resume();
      closing.push(() => socket.destroy());
      socket.once('connect', () => {
        socket.write(bytes);
        resolve(socket);
      });
    });
  return { ...opened, authPolicy, honest, serve, dial, url: opened.ingest.url };
}

describe('frames', () => {
  test('500 connections of broken, cut and invented bytes end nobody but themselves', async () => {
    const { serve, dial } = await start();
    const valid = fc.constantFrom(
      hello('fuzz'),
      publish('piles/saltmere-yard/p1/reading', '{"temperature":1}'),
      publish('piles/saltmere-yard/p1/reading', '41', 0x32, [0, 1]),
      publish('piles/saltmere-yard/p1/reading', '41', 0x34, [0, 2]),
      packet(0x82, Buffer.from([0, 1]), text('#'), Buffer.from([1])),
      packet(0x82, Buffer.from([0, 1]), text('a/#/b'), Buffer.from([7])),
      packet(0xa2, Buffer.from([0, 1]), text('#')),
      packet(0x62, Buffer.from([0, 2])),
      packet(0x40, Buffer.from([0, 9])),
      packet(0xc0),
      packet(0xf0),
      Buffer.from([0x30, 0xff, 0xff, 0xff, 0xff, 0x7f]),
    );
    const bent = fc.tuple(valid, fc.nat(), fc.integer({ min: 0, max: 255 }), fc.nat()).map(([bytes, at, byte, cut]) => {
      const copy = Buffer.from(bytes);
      copy[at % copy.length] = byte;
      return cut % 3 === 0 ? copy.subarray(0, 1 + (cut % copy.length)) : copy;
    });
    const bytes = fc.oneof(
      fc
        .array(fc.oneof(valid, bent), { minLength: 1, maxLength: 6 })
        .map((parts) => Buffer.concat([hello('fuzz'), ...parts])),
      fc.array(bent, { minLength: 1, maxLength: 4 }).map((parts) => Buffer.concat(parts)),
      fc.uint8Array({ minLength: 1, maxLength: 300 }).map((some) => Buffer.from(some)),
    );
    let round = 0;
    for (const some of fc.sample(bytes, { seed, numRuns: 500 })) {
      const socket = await dial(some);
      round += 1;
      if (round % 2 === 0) socket.end();
      if (round % 25 === 0) await serve();
    }
    await serve();
  });

  test('a topic that is no UTF-8, holds U+0000 or is 65,535 bytes long keeps nothing', async () => {
    const { serve, dial, ingest, store } = await start();
    const topics = [
      Buffer.from([0x70, 0xff, 0xfe, 0x2f]),
      Buffer.from([0xed, 0xa0, 0x80]), // a surrogate [MQTT-1.5.3-1]
      'piles/saltmere\0yard/p1/reading',
      'x'.repeat(65_535),
      '/'.repeat(65_535),
      `piles/${'y'.repeat(60_000)}/p1/reading`,
    ];
    for (const topic of topics) {
      await dial(Buffer.concat([hello('topic'), publish(topic, '41.5', 0x32, [0, 1])]));
      await serve();
    }
    await until('them to be heard', () => ingest.counters().received > topics.length || undefined);
    expect([...store.kept.values()].every(({ probe }) => probe === 'honest')).toBe(true);
  });

  test('a CONNECT longer than any is ended before it is gathered', async () => {
    const { serve, dial, authPolicy } = await start();
    const socket = await dial(Buffer.from([0x10, ...lengthBytes(17 * 1024), 0, 4]));
    await until('its end', () => socket.closed || undefined);
    await serve();
    expect(authPolicy.connectionAttempts.lines()).toMatchObject([
      { reason: 'too-long-packet', address: '127.0.0.1', count: 1 },
    ]);
  });
});

describe('crowds', () => {
  test('1,000 connections at once that say nothing, or half of something: the probe is served and others come in', async () => {
    const { serve, dial, url } = await start();
    const said = [new Uint8Array(), Buffer.from([0x10]), hello('half').subarray(0, 9)];
    await Promise.all(Array.from({ length: 1_000 }, (_, one) => dial(said[one % 3], `127.0.0.${1 + (one % 4)}`)));
    await serve();
    const newcomer = await connectAsync(url, { reconnectPeriod: 0 });
    closing.push(() => newcomer.endAsync(true));
    await serve();
  });

  test('200 that announce long packets and send them slowly cost no memory for what they sent', async () => {
    const { serve, dial } = await start();
    const before = process.memoryUsage().rss;
    const head = Buffer.concat([hello('slow'), Buffer.from([0x30, ...lengthBytes(2_000_000)])]);
    const piece = Buffer.alloc(256 * 1024, 0x61);
    const sockets: Socket[] = [];
    for (let one = 0; one < 200; one += 1) sockets.push(await dial(Buffer.from(head)));
    for (let round = 0; round < 4; round += 1) {
      for (const socket of sockets) if (!socket.destroyed) socket.write(piece);
      await serve();
    }
    // All of them would have held 200 MB.
    expect((process.memoryUsage().rss - before) / 2 ** 20).toBeLessThan(150);
    await serve();
  });

  test('one that sends a byte at a time is served a byte at a time', async () => {
    const { serve, dial, ingest } = await start();
    const socket = await dial();
    for (const byte of Buffer.concat([hello('drip'), publish('piles/saltmere-yard/drip/temperature', '40')])) {
      socket.write(Buffer.from([byte]));
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
    await until('its reading', () => ingest.counters().stored > 0 || undefined);
    await serve();
  });
});

describe('what is left behind', () => {
  const evil = async (url: string, will?: { topic: string; payload: string }): Promise<MqttClient> => {
    const client = await connectAsync(url, {
      reconnectPeriod: 0,
      username: 'key-a',
      password: 'secret',
      ...(will && { will: { topic: will.topic, payload: Buffer.from(will.payload), qos: 1, retain: true } }),
    });
    client.on('error', () => {});
    closing.push(() => client.endAsync(true));
    return client;
  };

  test('wills on others’ topics are not heard, however many', async () => {
    const { serve, url, statuses, ingest } = await start();
    const topics = [
      'piles/saltmere-yard/honest/status',
      'piles/oak-terrace/p1/status',
      '$SYS/x',
      'piles/saltmere-yard/siren',
    ];
    for (let round = 0; round < 40; round += 1) {
      (await evil(url, { topic: topics[round % 4] ?? '', payload: 'offline' })).stream.destroy();
    }
    await until('them to be counted', () => (ingest.counters().refused['not-its-topic'] === 30 ? true : undefined));
    expect(statuses).toEqual([]);
    await serve();
  });

  test('a flood of retained messages of one key fills its own share of the shelf and no more', async () => {
    const { serve, url, honest } = await start();
    const client = await evil(url);
    await Promise.all(
      Array.from({ length: 3_000 }, (_, n) =>
        client.publishAsync(`piles/saltmere-yard/evil/${n}`, 'x'.repeat(1_000), { qos: 1, retain: true }),
      ),
    );
    await honest.publishAsync('piles/saltmere-yard/honest/status', 'online', { qos: 1, retain: true });
    const heard = new Set<string>();
    const listener = await connectAsync(url, { reconnectPeriod: 0 });
    closing.push(() => listener.endAsync(true));
    listener.on('message', (topic) => heard.add(topic));
    await listener.subscribeAsync('piles/#');
    await until('the honest word', () => heard.has('piles/saltmere-yard/honest/status') || undefined);
    await until('all that is retained', () => heard.size >= 1_001 || undefined);
    expect(heard.size).toBe(1_001);
    await serve();
  });
});
