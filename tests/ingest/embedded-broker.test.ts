import { createConnection, createServer } from 'node:net';
import { connectAsync, type IClientOptions, type MqttClient } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import type { IngestOptions } from '../../ingest/ingest.ts';
import { ConfigError } from '../../shared/errors.ts';
import type { MemoryReadingsStore } from '../helpers/memory-readings-store.ts';
import { oneValue } from '../helpers/one-value.ts';
import { until } from '../helpers/until.ts';
import { openIngest, stillOpen } from './open-ingest.ts';

const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function start(
  change: Partial<IngestOptions> & { store?: MemoryReadingsStore } = {},
  limits: { maxRetained?: number } = {},
) {
  const opened = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1', ...limits }, change);
  closing.push(() => opened.ingest.close());
  const publisher = async (options: IClientOptions = {}): Promise<MqttClient> => {
    const client = await connectAsync(opened.ingest.url, { reconnectPeriod: 0, ...options });
    client.on('error', () => {});
    closing.push(() => client.endAsync(true));
    return client;
  };
  return { ...opened, publisher };
}

const topic = 'piles/saltmere-yard/p1/reading';
const reading = (time: number, temperature = 41.5) => JSON.stringify({ time, temperature });
const nowMs = Date.now();

describe('the embedded broker', () => {
  for (const qos of [0, 1, 2] as const) {
    test(`keeps a reading published at QoS ${qos}`, async () => {
      const { publisher, committed } = await start();
      await (await publisher()).publishAsync(topic, reading(nowMs), { qos });
      await until('the reading', () => committed[0]);
      expect(committed).toEqual([
        { site: 'saltmere-yard', probe: 'p1', quantity: 'temperature', value: 41.5, atMs: nowMs },
      ]);
    });
  }

  for (const qos of [1, 2] as const) {
    test(`acknowledges QoS ${qos} only after the commit`, async () => {
      const { publisher, store } = await start();
      store.hold();
      const acknowledged = (await publisher()).publishAsync(topic, reading(nowMs), { qos });
      expect([await stillOpen(acknowledged), store.kept.size]).toEqual([true, 0]);
      store.letGo();
      await acknowledged;
      expect(store.kept.size).toBe(1);
    });
  }

  test('gathers messages that come together into few commits', async () => {
    const { publisher, store } = await start();
    const client = await publisher();
    await Promise.all(
      Array.from({ length: 500 }, (_, index) => client.publishAsync(topic, reading(nowMs - index), { qos: 1 })),
    );
    expect(store.kept.size).toBe(500);
    expect(store.batches.length).toBeLessThan(100);
  });

  test('acknowledges a second delivery and keeps the reading once', async () => {
    const { publisher, ingest, store, committed } = await start();
    const client = await publisher();
    for (let time = 0; time < 3; time += 1) await client.publishAsync(topic, reading(nowMs), { qos: 1 });
    expect([store.kept.size, committed.length]).toEqual([1, 1]);
    expect(ingest.counters()).toMatchObject({ received: 3, acked: 3, stored: 1, duplicates: 2 });
  });

  test('keeps the first of two values for one time and counts the other: conflicting-value', async () => {
    const { publisher, ingest, store } = await start();
    const client = await publisher();
    await client.publishAsync(topic, reading(nowMs, 41), { qos: 1 });
    await client.publishAsync(topic, reading(nowMs, 42), { qos: 1 });
    expect([...store.kept.values()].map(({ value }) => value)).toEqual([41]);
    expect(ingest.refusals().refusals).toMatchObject([{ reason: 'conflicting-value', count: 1 }]);
  });

  test('acknowledges a reading from a time that was downsampled, and counts it: already-downsampled', async () => {
    const { publisher, ingest, store, committed } = await start();
    const client = await publisher();
    await store.downsample(nowMs - 86_400_000);
    await client.publishAsync(topic, reading(nowMs - 2 * 86_400_000), { qos: 1 });
    await client.publishAsync(topic, reading(nowMs), { qos: 1 });
    expect([store.kept.size, committed.length]).toEqual([1, 1]);
    expect(ingest.counters()).toMatchObject({
      received: 2,
      acked: 2,
      stored: 1,
      refused: { 'already-downsampled': 1 },
    });
    expect(ingest.refusals().refusals[0]?.meaning).toMatch(/probe name of their own.*raise the age/);
  });

  test('acknowledges what is refused for good, and counts it', async () => {
    const { publisher, ingest } = await start();
    await (await publisher()).publishAsync(topic, 'nope', { qos: 1 });
    expect(ingest.counters()).toMatchObject({ received: 1, acked: 1, stored: 0, refused: { 'not-json': 1 } });
  });

  test('hears a status, and the will of a probe that falls silent', async () => {
    const { publisher, statuses } = await start();
    const will = {
      topic: 'piles/saltmere-yard/p1/status',
      payload: Buffer.from('offline'),
      qos: 1,
      retain: true,
    } as const;
    const client = await publisher({ will });
    await client.publishAsync(will.topic, 'online', { qos: 1, retain: true });
    client.stream.destroy();
    await until('the will', () => statuses[1]);
    expect(statuses).toEqual(['saltmere-yard/p1 online', 'saltmere-yard/p1 offline']);
  });

  test('passes messages on to others who subscribe, retained ones too', async () => {
    const { publisher } = await start();
    const probe = await publisher();
    await probe.publishAsync('piles/saltmere-yard/p1/status', 'online', { qos: 1, retain: true });
    const listener = await publisher();
    const heard: string[] = [];
    listener.on('message', (on, payload) => heard.push(`${on} ${payload}`));
    await listener.subscribeAsync('piles/#', { qos: 1 });
    await probe.publishAsync(topic, 'x', { qos: 1 });
    await until('both messages', () => heard[1]);
    expect(heard.sort()).toEqual([`${topic} x`, 'piles/saltmere-yard/p1/status online'].sort());
  });

  test('does not acknowledge while the store fails, says so, and recovers by itself', async () => {
    const { publisher, ingest, store, logged } = await start();
    store.failWith('disk full');
    const acknowledged = (await publisher()).publishAsync(topic, reading(nowMs), { qos: 1 });
    expect(await stillOpen(acknowledged)).toBe(true);
    expect(ingest.health()).toMatchObject({
      state: 'down',
      detail: 'Readings cannot be stored (disk full); 1 message waits unacknowledged',
    });
    store.failWith(undefined);
    await acknowledged;
    expect([ingest.health().state, store.kept.size]).toEqual(['ok', 1]);
    expect(logged[0]).toContain('could not be stored');
  });

  test('parts from publishers, unacknowledged, once as much as may wait is waiting for a failing store', async () => {
    const { publisher, ingest, store } = await start({ capacity: 5 });
    store.failWith('disk full');
    const client = await publisher();
    const parted = new Promise<void>((resolve) => client.once('close', () => resolve()));
    const acknowledged = Array.from({ length: 8 }, (_, index) =>
      client.publishAsync(topic, reading(nowMs - index), { qos: 1 }).then(
        () => true,
        () => false,
      ),
    );
    await parted;
    expect(ingest.counters()).toMatchObject({ received: 5, acked: 0 });
    store.failWith(undefined);
    await client.endAsync(true);
    expect(await Promise.all(acknowledged)).toEqual(Array(8).fill(false));
    await until('what waited', () => (store.kept.size === 5 ? true : undefined));
  });

  test('a packet of 1 MiB is refused, acknowledged and counted, and stops nobody', async () => {
    const { publisher, ingest, store } = await start();
    const [big, other] = [await publisher(), await publisher()];
    await Promise.all([
      big.publishAsync(topic, Buffer.alloc(2 ** 20, 0x20), { qos: 1 }),
      other.publishAsync('piles/saltmere-yard/p2/reading', reading(nowMs), { qos: 1 }),
    ]);
    await big.publishAsync(topic, reading(nowMs), { qos: 1 });
    expect(ingest.counters().refused['payload-too-large']).toBe(1);
    expect(store.kept.size).toBe(2);
  });

  test('a packet beyond all bounds ends its own connection only, is counted, and is not gathered in memory', async () => {
    const { publisher, ingest, store } = await start();
    const other = await publisher();
    const socket = createConnection(Number(new URL(ingest.url).port), '127.0.0.1');
    const ended = new Promise((resolve) => socket.once('close', resolve));
    socket.on('error', () => {}).resume();
    // CONNECT, then the first bytes of a PUBLISH that announces 256 MiB.
    socket.write(Buffer.from([0x10, 13, 0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 0, 0, 1, 0x78]));
    socket.write(Buffer.from([0x32, 0xff, 0xff, 0xff, 0x7f, 0, 1, 0x74]));
    await ended;
    await other.publishAsync(topic, reading(nowMs), { qos: 1 });
    expect(ingest.counters().refused['payload-too-large']).toBe(1);
    expect(store.kept.size).toBe(1);
  });

  test('bytes that are no MQTT end their own connection only', async () => {
    const { publisher, ingest, store } = await start();
    const other = await publisher();
    const ends = ['GET / HTTP/1.1\r\n\r\n', '\u0010\uffff\uffff', '\u0000'.repeat(1_000)].map((bytes) => {
      const socket = createConnection(Number(new URL(ingest.url).port), '127.0.0.1', () => socket.write(bytes));
      socket.on('error', () => {}).resume();
      return new Promise((resolve) => socket.once('close', resolve));
    });
    await Promise.all(ends);
    await other.publishAsync(topic, reading(nowMs), { qos: 1 });
    expect(store.kept.size).toBe(1);
  });

  test('a topic with wildcards is counted: topic-shape', async () => {
    const { ingest } = await start();
    const socket = createConnection(Number(new URL(ingest.url).port), '127.0.0.1');
    socket.on('error', () => {}).resume();
    socket.write(Buffer.from([0x10, 13, 0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 0, 0, 1, 0x78]));
    socket.write(Buffer.from([0x30, 4, 0, 1, 0x23, 0x78])); // PUBLISH on "#"
    await new Promise((resolve) => socket.once('close', resolve));
    expect(ingest.counters().refused['topic-shape']).toBe(1);
  });

  test('nobody but the broker may speak below $SYS', async () => {
    const { publisher, ingest } = await start();
    const client = await publisher();
    const closed = new Promise((resolve) => client.once('close', () => resolve(true)));
    client.publish('$SYS/broker/x', '1', { qos: 1 });
    expect(await closed).toBe(true);
    expect(ingest.counters().received).toBe(0);
  });

  test('keeps the retained messages of so many topics only', async () => {
    const { publisher } = await start({}, { maxRetained: 2 });
    const client = await publisher();
    for (const name of ['a', 'b', 'c']) await client.publishAsync(`garden/${name}`, name, { qos: 1, retain: true });
    await client.publishAsync('garden/a', '', { qos: 1, retain: true });
    await client.publishAsync('garden/d', 'd', { qos: 1, retain: true });
    const heard: string[] = [];
    const listener = await publisher();
    listener.on('message', (_, payload) => heard.push(payload.toString()));
    await listener.subscribeAsync('garden/#');
    await until('two retained messages', () => heard[1]);
    expect(heard.sort()).toEqual(['b', 'd']);
  });

  test('shows foreign messages, tries a mapping on them, and uses it once it is set', async () => {
    const { publisher, ingest, committed } = await start();
    const client = await publisher();
    await client.publishAsync('garden/bed/temp', '{"t":104}', { qos: 1 });
    expect(ingest.foreignMessages()).toMatchObject([{ topic: 'garden/bed/temp', payload: '{"t":104}' }]);
    expect(ingest.foreignMessages('other/#')).toEqual([]);
    const mapping = oneValue({
      filter: 'garden/+/temp',
      pointer: '/t',
      quantity: 'temperature',
      unit: 'F',
      scale: 1,
      site: 'saltmere-yard',
      probe: '{1}',
    });
    expect(ingest.tryMapping(mapping).results).toMatchObject([{ readings: [{ probe: 'bed', value: 40 }] }]);
    ingest.setMappings([mapping]);
    await client.publishAsync('garden/bed/temp', '{"t":105.8}', { qos: 1 });
    expect(committed).toMatchObject([
      { probe: 'bed', value: 40 },
      { probe: 'bed', value: 41 },
    ]);
  });

  test('reads the last message of a topic as soon as a mapping for it is set, and each reading once', async () => {
    const { publisher, ingest, store, committed } = await start();
    const client = await publisher();
    const timed = (time: number) => JSON.stringify({ t: 41, at: time });
    await client.publishAsync('garden/timed', timed(nowMs - 60_000), { qos: 1, retain: true });
    await client.publishAsync('garden/untimed', '{"t":38}', { qos: 1, retain: true });
    const one = { pointer: '/t', quantity: 'temperature', unit: 'C', scale: 1, site: 'saltmere-yard' } as const;
    const mappings = [
      oneValue({ ...one, filter: 'garden/timed', probe: 'timed', timePointer: '/at' }),
      oneValue({ ...one, filter: 'garden/untimed', probe: 'untimed' }),
    ];
    ingest.setMappings(mappings);
    await until('both', () => committed[1]);
    const came = Date.parse(ingest.foreignMessages('garden/untimed')[0]?.at ?? '');
    expect(committed).toMatchObject([
      { probe: 'timed', value: 41, atMs: nowMs - 60_000 },
      { probe: 'untimed', value: 38, atMs: came },
    ]);
    expect(ingest.foreignMessages().map(({ isUsed }) => isUsed)).toEqual([true, true]);

    // Set again, and said again: the same time is the same reading.
    ingest.setMappings([]);
    ingest.setMappings(mappings);
    await client.publishAsync('garden/timed', timed(nowMs - 60_000), { qos: 1 });
    expect(store.kept.size).toBe(2);
    expect(committed).toHaveLength(2);
    expect(ingest.refusals().total).toBe(0);
  });

  test('a mapping that cannot work is left out and logged, the others work', async () => {
    const { ingest, logged } = await start();
    const mapping = { pointer: '', quantity: 'temperature', unit: 'C', scale: 1, site: 's', probe: 'p' } as const;
    ingest.setMappings([oneValue({ ...mapping, filter: 'a/#/b' }), oneValue({ ...mapping, filter: 'a/b' })]);
    expect(logged).toEqual(['a mapping cannot work and is left out']);
  });

  test('listen() refuses what is no filter', async () => {
    const { ingest } = await start();
    await expect(ingest.listen('a/#/b', 1_000)).rejects.toThrow(RangeError);
  });

  test('a listener that throws is logged, and the message acknowledged all the same', async () => {
    const { publisher, logged } = await start({
      onCommitted() {
        throw new Error('ours');
      },
    });
    await (await publisher()).publishAsync(topic, reading(nowMs), { qos: 1 });
    expect(logged).toEqual(['onCommitted failed']);
  });

  test('believes a probe that was near 85 °C before the restart', async () => {
    const first = await start();
    await (await first.publisher()).publishAsync(topic, reading(nowMs - 60_000, 84), { qos: 1 });
    const second = await start({ store: first.store });
    await (await second.publisher()).publishAsync(topic, reading(nowMs, 85), { qos: 1 });
    expect(second.ingest.counters()).toMatchObject({ stored: 1, refused: { 'power-on-value': 0 } });
  });

  test('close() keeps and acknowledges what came in', async () => {
    const { publisher, ingest, store } = await start();
    store.hold();
    const acknowledged = (await publisher()).publishAsync(topic, reading(nowMs), { qos: 1 });
    await until('the store to have it', () => store.holding() || undefined);
    const closed = ingest.close();
    store.letGo();
    await Promise.all([closed, acknowledged]);
    expect(store.kept.size).toBe(1);
  });
});

test('startIngest() names the variable when the port is taken', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  closing.push(async () => other.close());
  const address = other.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const starting = openIngest({ kind: 'embedded', port, host: '127.0.0.1' });
  await expect(starting).rejects.toThrow(ConfigError);
  await expect(starting).rejects.toThrow(new RegExp(`^Port ${port} on [^\\n]* is taken[^\\n]*BRANHEARTH_MQTT_PORT`));
});

test('startIngest() names the variable when the address is not this machine’s', async () => {
  const starting = openIngest({ kind: 'embedded', port: 0, host: '192.0.2.1' });
  await expect(starting).rejects.toThrow(/^BRANHEARTH_MQTT_HOST must be an address of this machine/);
});
