// One stolen key against the embedded broker over real sockets: whatever it asks for, sends and leaves half sent is
// bounded, refused as MQTT 3.1.1 says and counted; an honest probe beside it is served all the while.
import { createHash } from 'node:crypto';
import { connect, type Socket } from 'node:net';
import { connectAsync } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import { createAuthPolicy } from '../../ingest/auth/auth-policy.ts';
import { liveClock } from '../../shared/clock.ts';
import type { KnownKey } from '../../shared/probe-key.ts';
import { memoryInUse } from '../helpers/memory-in-use.ts';
import { until } from '../helpers/until.ts';
import { openIngest } from './open-ingest.ts';
import { hello, lengthBytes, packet, publish, subscribe, text, twoBytes, unsubscribe } from './raw-mqtt.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const secretSha256 = createHash('sha256').update('secret').digest('hex');
const keyOf = (id: string, change: Partial<KnownKey> = {}): KnownKey => ({
  id,
  secretSha256,
  site: 'saltmere-yard',
  probe: id,
  foreign: [],
  hears: 'own',
  ...change,
});
const credentials = (username: string) => ({ username, password: 'secret' });
const mb = 2 ** 20;

/** What a connection got, and what it says. */
interface Line {
  readonly socket: Socket;
  got(): Buffer;
  send(bytes: Uint8Array): Promise<void>;
  has(bytes: number): Promise<Buffer>;
}

async function start(
  keys: KnownKey[] = [keyOf('evil')],
  options: { maxConnections?: number; packetsPerSecond?: number } = {},
) {
  const authPolicy = createAuthPolicy({ clock: liveClock, root: 'piles' });
  authPolicy.setKeys([keyOf('honest'), ...keys]);
  const opened = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1', authPolicy, ...options });
  closing.push(() => opened.ingest.close());
  const port = Number(new URL(opened.ingest.url).port);
  const honest = await connectAsync(opened.ingest.url, { reconnectPeriod: 0, ...credentials('honest') });
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
    const payload = JSON.stringify({ temperature: 41.5, time: Date.now() + said });
    await honest.publishAsync('piles/saltmere-yard/honest/reading', payload, { qos: 1 });
    const kept = [...opened.store.kept.values()].filter(({ probe }) => probe === 'honest');
    expect([kept.length, parted]).toEqual([said, false]);
  };
  const dial = async (bytes: Uint8Array): Promise<Line> => {
    const socket = connect({ port, host: '127.0.0.1' });
    const parts: Buffer[] = [];
    socket.on('error', () => {});
    socket.on('data', (part) => parts.push(part));
    closing.push(() => socket.destroy());
    const got = () => Buffer.concat(parts);
    const send = (some: Uint8Array) => new Promise<void>((resolve) => void socket.write(some, () => resolve()));
    await send(bytes);
    return {
      socket,
      got,
      send,
      has: (count) => until(`${count} bytes`, () => (got().length >= count ? got() : undefined)),
    };
  };
  /** Comes in with a key; the answer is CONNACK with return code 0. */
  const enter = async (id: string, clientId = 'one'): Promise<Line> => {
    const line = await dial(hello(clientId, credentials(id)));
    expect([...(await line.has(4))]).toEqual([0x20, 2, 0, 0]);
    return line;
  };
  const refused = (reason: string) =>
    opened.ingest.refusals().refusals.find((line) => line.reason === reason)?.count ?? 0;
  return { ...opened, authPolicy, serve, dial, enter, refused };
}

/** The return codes of the SUBACK that follows the CONNACK; 0x80 is failure (MQTT 3.1.1 section 3.9.3). */
const granted = (got: Buffer, filters: number) => [...got.subarray(got.length - filters)];
const filtersOf = (count: number, probe = 'evil') =>
  Array.from({ length: count }, (_, one) => `piles/saltmere-yard/${probe}/${one}`);

describe('what a key asks to hear', () => {
  test('a SUBSCRIBE of 60,000 filters ends its connection before it is gathered', async () => {
    const { enter, serve, authPolicy } = await start();
    const line = await enter('evil');
    await line.send(subscribe(1, filtersOf(60_000)).subarray(0, 64));
    await until('its end', () => line.socket.closed || undefined);
    expect(authPolicy.connectionAttempts.lines()).toMatchObject([
      { reason: 'too-long-packet', keyId: 'evil', clientId: 'one' },
    ]);
    await serve();
  });

  test('an UNSUBSCRIBE longer than any is treated alike', async () => {
    const { enter, serve, authPolicy } = await start();
    const line = await enter('evil');
    await line.send(Buffer.from([0xa2, ...lengthBytes(32 * 1024 + 1)]));
    await until('its end', () => line.socket.closed || undefined);
    expect(authPolicy.connectionAttempts.totals()['too-long-packet']).toBe(1);
    await serve();
  });

  test('32 filters are granted to a probe, over all its connections; the next are refused until one is given up', async () => {
    const { enter, serve, refused } = await start();
    const first = await enter('evil', 'first');
    await first.send(subscribe(1, filtersOf(40)));
    const codes = granted(await first.has(4 + 5 + 39), 40);
    expect(codes.filter((code) => code === 0)).toHaveLength(32);
    expect(codes.slice(32)).toEqual(Array.from({ length: 8 }, () => 0x80));
    expect(refused('too-many-filters')).toBe(8);
    const second = await enter('evil', 'second');
    await second.send(subscribe(1, filtersOf(1)));
    expect(granted(await second.has(9), 1)).toEqual([0x80]);
    const before = first.got().length;
    await first.send(unsubscribe(2, filtersOf(1)));
    await first.has(before + 4);
    await second.send(subscribe(2, filtersOf(1)));
    expect(granted(await second.has(14), 1)).toEqual([0]);
    await serve();
  });

  test('what one key holds takes nothing from another, and comes free with its connection', async () => {
    const { enter, authPolicy, serve } = await start([keyOf('evil'), keyOf('good')]);
    const evil = await enter('evil');
    await evil.send(subscribe(1, filtersOf(33)));
    expect(granted(await evil.has(4 + 4 + 33), 33)[32]).toBe(0x80);
    const good = await enter('good');
    await good.send(subscribe(1, filtersOf(32, 'good')));
    expect(granted(await good.has(4 + 4 + 32), 32)).toEqual(Array.from({ length: 32 }, () => 0));
    evil.socket.destroy();
    await until('it to be gone', () => (authPolicy.seen('evil')?.connected === 0 ? true : undefined));
    const again = await enter('evil');
    await again.send(subscribe(1, filtersOf(32)));
    expect(granted(await again.has(4 + 4 + 32), 32)).toEqual(Array.from({ length: 32 }, () => 0));
    await serve();
  });

  test('a filter of 1,025 bytes or 33 levels is refused, one of 32 levels granted', async () => {
    const { enter, refused } = await start([keyOf('hub', { site: null, probe: null, hears: 'everything' })]);
    const line = await enter('hub');
    await line.send(subscribe(1, ['x'.repeat(1_025), `${'+/'.repeat(32)}x`, `${'+/'.repeat(31)}x`, '#']));
    expect(granted(await line.has(12), 4)).toEqual([0x80, 0x80, 0, 0]);
    expect(refused('too-many-filters')).toBe(2);
  });

  test('a connection that was refused 64 filters is refused all further ones, the next one is not', async () => {
    const { enter, refused, serve } = await start([keyOf('evil')]);
    const first = await enter('evil', 'first');
    const foreign = Array.from({ length: 64 }, (_, one) => `elsewhere/${one}`);
    const [own = ''] = filtersOf(1);
    await first.send(subscribe(1, [...foreign.slice(1), own]));
    expect(granted(await first.has(4 + 4 + 64), 64)[63]).toBe(0);
    await first.send(subscribe(2, [...foreign.slice(0, 1), ...filtersOf(2)]));
    expect(granted(await first.has(4 + 4 + 64 + 4 + 3), 3)).toEqual([0x80, 0x80, 0x80]);
    expect(refused('not-its-topic')).toBe(66);
    const second = await enter('evil', 'second');
    await second.send(subscribe(1, filtersOf(2)));
    expect(granted(await second.has(4 + 4 + 2), 2)).toEqual([0, 0]);
    await serve();
  });

  test('a hub that hears everything may hold hundreds, and hears', async () => {
    const { enter, serve } = await start([keyOf('hub', { site: null, probe: null, hears: 'everything' })]);
    const line = await enter('hub');
    const filters = Array.from({ length: 500 }, (_, one) => `piles/+/probe-${one}/reading`);
    await line.send(Buffer.concat([subscribe(1, filters), subscribe(2, ['#'])]));
    const got = await line.has(4 + 5 + 500 + 5);
    expect(got.includes(0x80)).toBe(false);
    await serve();
    await until('the reading', () => line.got().includes('honest/reading') || undefined);
  });
});

describe('what a key leaves half sent', () => {
  test('QoS 2 messages of 1.9 MB without PUBREL from twelve connections are refused one by one and not kept', async () => {
    const { enter, serve, refused } = await start(undefined, { packetsPerSecond: 100_000 });
    const before = process.memoryUsage().rss;
    const heavy = 'x'.repeat(1_900_000);
    const lines = await Promise.all(Array.from({ length: 12 }, (_, one) => enter('evil', `c${one}`)));
    for (let id = 1; id <= 20; id += 1) {
      const message = publish('piles/saltmere-yard/evil/reading', heavy, 0x34, [0, id]);
      await Promise.all(lines.map((line) => line.send(message)));
      await Promise.all(lines.map((line) => line.has(4 + 4 * id))); // a PUBREC for each
    }
    expect(refused('payload-too-large')).toBe(240);
    // Kept, they would be 456 MB.
    expect((process.memoryUsage().rss - before) / mb).toBeLessThan(150);
    await serve();
  });

  test('QoS 2 messages of 60 kB without PUBREL cost their identifiers only', async () => {
    const { enter, serve } = await start(undefined, { packetsPerSecond: 100_000 });
    const line = await enter('evil');
    const message = (id: number) =>
      publish('piles/saltmere-yard/evil/reading', 'x'.repeat(60_000), 0x34, [...twoBytes(id)]);
    const sent = 250;
    for (let id = 1; id <= sent; id += 1) await line.send(message(id));
    await line.has(4 + 4 * sent);
    const before = memoryInUse();
    for (let id = sent + 1; id <= 3 * sent; id += 1) await line.send(message(id));
    await line.has(4 + 4 * 3 * sent);
    const after = memoryInUse();
    // Kept, they would be 30 MB of buffers.
    expect((after.arrayBuffers - before.arrayBuffers) / mb).toBeLessThan(15);
    await serve();
  });

  test('the 1,001st QoS 2 message without PUBREL ends the connection, and is counted', async () => {
    const { enter, serve, authPolicy } = await start();
    const line = await enter('evil');
    const messages = Array.from({ length: 1_001 }, (_, id) =>
      publish('piles/saltmere-yard/evil/co2', '900', 0x34, [...twoBytes(id + 1)]),
    );
    await line.send(Buffer.concat(messages));
    await until('its end', () => line.socket.closed || undefined);
    expect(authPolicy.connectionAttempts.totals()['too-much-under-way']).toBe(1);
    await serve();
  });

  test('a QoS 2 message sent again before its PUBREL counts once', async () => {
    const { enter, store } = await start();
    const line = await enter('evil');
    // Without a time of its own, a second one would be another reading.
    const message = (flags: number, ppm: string) => publish('piles/saltmere-yard/evil/co2', ppm, flags, [0, 7]);
    const kept = () => [...store.kept.values()].filter(({ probe }) => probe === 'evil').map(({ value }) => value);
    await line.send(message(0x34, '900'));
    await line.has(8);
    await line.send(message(0x3c, '901')); // DUP
    expect([...(await line.has(12)).subarray(8)]).toEqual([0x50, 2, 0, 7]); // PUBREC again
    expect(kept()).toEqual([900]);
    await line.send(packet(0x62, twoBytes(7)));
    expect([...(await line.has(16)).subarray(12)]).toEqual([0x70, 2, 0, 7]); // PUBCOMP: the identifier is free again
    await line.send(message(0x34, '902'));
    await line.has(20);
    expect(kept()).toEqual([900, 902]);
  });

  test('long messages sent nearly to their end by 30 connections cost no memory', async () => {
    const { enter, serve } = await start(undefined, { packetsPerSecond: 100_000 });
    const before = memoryInUse().arrayBuffers;
    const message = publish('piles/saltmere-yard/evil/reading', 'x'.repeat(2_000_000), 0x32, [0, 1]);
    for (let one = 0; one < 30; one += 1) {
      const line = await enter('evil', `c${one}`);
      await line.send(message.subarray(0, message.length - 1_000));
      await serve();
    }
    // Gathered, they would be 60 MB, and stay.
    await expect.poll(() => (memoryInUse().arrayBuffers - before) / mb).toBeLessThan(20);
  });

  test('a message over 64 KiB is acknowledged, counted, and heard by nobody', async () => {
    const { enter, serve, refused } = await start([
      keyOf('evil'),
      keyOf('hub', { site: null, probe: null, hears: 'everything' }),
    ]);
    const hub = await enter('hub');
    await hub.send(subscribe(1, ['#']));
    await hub.has(9);
    const line = await enter('evil');
    await line.send(publish('piles/saltmere-yard/evil/reading', 'x'.repeat(65_537), 0x32, [0, 5]));
    expect([...(await line.has(8)).subarray(4)]).toEqual([0x40, 2, 0, 5]);
    expect(refused('payload-too-large')).toBe(1);
    await serve();
    await until('what the honest one says', () => hub.got().includes('honest/reading') || undefined);
    expect(hub.got().includes('evil/reading')).toBe(false);
  });
});

describe('how often a key connects', () => {
  test('its 33rd connection is refused with return code 3, and none of the others ended', async () => {
    const { enter, dial, authPolicy, serve } = await start();
    const lines = await Promise.all(Array.from({ length: 32 }, (_, one) => enter('evil', `c${one}`)));
    const late = await dial(hello('late', credentials('evil')));
    expect([...(await late.has(4))]).toEqual([0x20, 2, 0, 3]); // server unavailable (MQTT 3.1.1 table 3.1)
    expect(authPolicy.connectionAttempts.lines()).toMatchObject([
      { reason: 'too-many-of-key', keyId: 'evil', clientId: 'late' },
    ]);
    expect(lines.every(({ socket }) => !socket.closed)).toBe(true);
    await serve();
  });

  test('one that is connected may come again in its own stead, and one that left makes room', async () => {
    const { enter, dial, authPolicy } = await start();
    const lines = await Promise.all(Array.from({ length: 32 }, (_, one) => enter('evil', `c${one}`)));
    await enter('evil', 'c3'); // [MQTT-3.1.4-2]
    await until('the first of that name to be ended', () => lines[3]?.socket.closed || undefined);
    lines[5]?.socket.destroy();
    await until('it to be gone', () => (authPolicy.seen('evil')?.connected === 31 ? true : undefined));
    await enter('evil', 'new');
    const late = await dial(hello('late', credentials('evil')));
    expect((await late.has(4))[3]).toBe(3);
  });

  test('the key of a site may have a fifth of all places', async () => {
    const { enter, dial } = await start([keyOf('site', { probe: null })], { maxConnections: 200 });
    await Promise.all(Array.from({ length: 40 }, (_, one) => enter('site', `c${one}`)));
    const late = await dial(hello('late', credentials('site')));
    expect((await late.has(4))[3]).toBe(3);
  });

  test('a client id that is too long is refused with return code 2', async () => {
    const { dial, authPolicy, serve } = await start();
    const line = await dial(hello('x'.repeat(10_000), credentials('evil')));
    expect([...(await line.has(4))]).toEqual([0x20, 2, 0, 2]); // identifier rejected [MQTT-3.1.3-9]
    expect(authPolicy.connectionAttempts.totals()['too-long-client-id']).toBe(1);
    await serve();
  });

  test('a CONNECT of MQTT 5 full of user properties is answered with return code 1 and ended', async () => {
    const { dial, serve } = await start();
    const property = Buffer.concat([Buffer.from([0x26]), text('__proto__'), text('x')]);
    const properties = Buffer.concat(Array.from({ length: 900 }, () => property));
    const connect5 = packet(
      0x10,
      text('MQTT'),
      Buffer.from([5, 2, 0, 60]),
      Buffer.from(lengthBytes(properties.length)),
      properties,
      text('five'),
    );
    const line = await dial(connect5);
    await until('its end', () => line.socket.closed || undefined);
    expect([...line.got()]).toEqual([0x20, 2, 0, 1]); // unacceptable protocol version [MQTT-3.1.2-2]
    await serve();
  });
});
