// The embedded broker's auth policy over real MQTT: keys, their topics, revoking, floods, full installations.

import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { connect as connectTcp } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync, type IClientOptions, MqttClient } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import { type AuthRules, createAuthPolicy } from '../../ingest/auth/auth-policy.ts';
import type { EmbeddedBrokerOptions } from '../../ingest/embedded-broker/embedded-broker.ts';
import { liveClock } from '../../shared/clock.ts';
import type { KnownKey } from '../../shared/probe-key.ts';
import { oneValue } from '../helpers/one-value.ts';
import { until } from '../helpers/until.ts';
import { openIngest } from './open-ingest.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const secretOf = (id: string) => `secret-of-${id}`;
const keyOf = (id: string, change: Partial<KnownKey> = {}): KnownKey => ({
  id,
  secretSha256: createHash('sha256').update(secretOf(id)).digest('hex'),
  site: 'saltmere-yard',
  probe: id,
  foreign: [],
  hears: 'own',
  ...change,
});

async function start(
  { keys = [], ...rules }: Partial<AuthRules> & { keys?: KnownKey[] } = {},
  options: Partial<EmbeddedBrokerOptions> = {},
) {
  const authPolicy = createAuthPolicy({ clock: liveClock, root: 'piles', rules });
  authPolicy.setKeys(keys);
  const opened = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1', authPolicy, ...options });
  closing.push(() => opened.ingest.close());
  const come = async (change: IClientOptions = {}, url = opened.ingest.url): Promise<MqttClient> => {
    const client = await connectAsync(url, { reconnectPeriod: 0, ...change });
    client.on('error', () => {});
    closing.push(() => client.endAsync(true));
    return client;
  };
  const comeWith = (id: string, change: IClientOptions = {}) =>
    come({ username: id, password: secretOf(id), clientId: `client-${id}`, ...change });
  const reasons = () => opened.ingest.refusals().refusals.map(({ reason, count }) => [reason, count]);
  return { ...opened, authPolicy, come, comeWith, reasons };
}

const nowMs = Date.now();
const reading = (agoMs = 0) => JSON.stringify({ time: nowMs - agoMs, temperature: 41.5 });
const topicOf = (probe: string, leaf = 'reading') => `piles/saltmere-yard/${probe}/${leaf}`;
const closed = (client: MqttClient) => new Promise<void>((resolve) => client.once('close', () => resolve()));

describe('a probe with a key', () => {
  test('speaks for itself, and what it says of another is acknowledged, counted and not kept', async () => {
    const { comeWith, store, reasons } = await start({ keys: [keyOf('p1')] });
    const client = await comeWith('p1');
    await client.publishAsync(topicOf('p2'), reading(), { qos: 1 });
    await client.publishAsync(topicOf('p1'), reading(), { qos: 1 });
    expect([...store.kept.values()].map(({ probe }) => probe)).toEqual(['p1']);
    expect(reasons()).toEqual([['not-its-topic', 1]]);
  });

  test('cannot leave a will or a retained word on the topic of another', async () => {
    const { come, comeWith, statuses, reasons } = await start({ keys: [keyOf('p1')] });
    const will = { topic: topicOf('p2', 'status'), payload: Buffer.from('offline'), qos: 1, retain: true } as const;
    const client = await comeWith('p1', { will });
    await client.publishAsync(topicOf('p2', 'status'), 'offline', { qos: 1, retain: true });
    client.stream.destroy();
    await until('both to be counted', () => (reasons()[0]?.[1] === 2 ? true : undefined));
    const heard: string[] = [];
    const listener = await come();
    listener.on('message', (topic) => heard.push(topic));
    await listener.subscribeAsync('#');
    await listener.publishAsync('garden/x', '', { qos: 1 });
    await until('what is retained', () => heard[0]);
    expect([heard, statuses]).toEqual([['garden/x'], []]);
  });

  test('leaves its own will', async () => {
    const { comeWith, statuses } = await start({ keys: [keyOf('p1')] });
    const will = { topic: topicOf('p1', 'status'), payload: Buffer.from('offline'), qos: 1, retain: true } as const;
    (await comeWith('p1', { will })).stream.destroy();
    await until('the will', () => statuses[0]);
    expect(statuses).toEqual(['saltmere-yard/p1 offline']);
  });

  test('hears its own topics and no others', async () => {
    const { comeWith, reasons } = await start({ keys: [keyOf('p1'), keyOf('p2')] });
    const client = await comeWith('p1');
    const heard: string[] = [];
    client.on('message', (topic) => heard.push(topic));
    const asked = ['#', topicOf('p2'), 'piles/saltmere-yard/+/reading', topicOf('p1', '#')];
    const granted: number[] = [];
    for (const filter of asked) {
      // mqtt.js makes an error of a refused subscription.
      granted.push(
        await client.subscribeAsync(filter, { qos: 1 }).then(
          ([answer]) => answer?.qos ?? -1,
          () => 0x80,
        ),
      );
    }
    await (await comeWith('p2')).publishAsync(topicOf('p2'), reading(), { qos: 1 });
    await client.publishAsync(topicOf('p1'), reading(), { qos: 1 });
    await until('its own', () => heard[0]);
    expect(granted).toEqual([0x80, 0x80, 0x80, 1]);
    expect(heard).toEqual([topicOf('p1')]);
    expect(reasons()).toEqual([['not-its-topic', 3]]);
  });

  test('with a wrong secret is turned away, counted once a try, and its secret shown nowhere', async () => {
    const { comeWith, authPolicy, logged } = await start({ keys: [keyOf('p1')] });
    for (let time = 0; time < 2; time += 1) {
      await expect(comeWith('p1', { password: 'hunter2' })).rejects.toThrow(/Bad username or password/i);
    }
    expect(authPolicy.connectionAttempts.lines()).toMatchObject([
      { address: '127.0.0.1', clientId: 'client-p1', keyId: 'p1', reason: 'wrong-secret', count: 2 },
    ]);
    expect(JSON.stringify([authPolicy.connectionAttempts.lines(), logged])).not.toContain('hunter2');
  });

  test('is parted from at once when its key is revoked, while another stays', async () => {
    const { comeWith, authPolicy, store } = await start({ keys: [keyOf('p1'), keyOf('p2')] });
    const [first, second] = [await comeWith('p1'), await comeWith('p2')];
    expect(authPolicy.seen('p1')).toMatchObject({ connected: 1, address: '127.0.0.1' });
    const parted = closed(first);
    authPolicy.setKeys([keyOf('p2')], ['p1']);
    await parted;
    await second.publishAsync(topicOf('p2'), reading(), { qos: 1 });
    expect(store.kept.size).toBe(1);
    await expect(comeWith('p1')).rejects.toThrow(/Bad username or password/i);
    expect(authPolicy.seen('p1')).toMatchObject({ connected: 0 });
  });

  test('cannot end the connection of another by taking its client id', async () => {
    const { come, comeWith } = await start({ keys: [keyOf('p1'), keyOf('p2')] });
    const honest = await comeWith('p1', { clientId: 'heap' });
    let parted = false;
    honest.once('close', () => {
      parted = true;
    });
    await comeWith('p2', { clientId: 'heap' });
    await come({ clientId: 'heap' });
    await come({ clientId: 'key:p1:heap' });
    await honest.publishAsync(topicOf('p1'), reading(), { qos: 1 });
    expect(parted).toBe(false);
    const itself = closed(honest);
    await comeWith('p1', { clientId: 'heap' }); // [MQTT-3.1.4-2]
    await itself;
  });
});

describe('a device that nobody knows, with the key of a site', () => {
  const siteKey = keyOf('yard', { probe: null });
  const mapping = (site: string) =>
    oneValue({ filter: 'shed/+/say', pointer: '/t', quantity: 'temperature', unit: 'C', site, probe: 'shed-{1}' });

  test('is shown to whoever maps it, is read then, and nobody else at the broker hears it', async () => {
    const { come, comeWith, ingest, store, reasons } = await start({ keys: [siteKey] });
    const listening = await come();
    const heard: string[] = [];
    listening.on('message', (topic) => heard.push(topic));
    await listening.subscribeAsync('#', { qos: 1 });
    const device = await comeWith('yard');
    await device.publishAsync('shed/7/say', '{"t":41}', { qos: 1, retain: true });
    expect(ingest.foreignMessages()).toMatchObject([
      { topic: 'shed/7/say', site: 'saltmere-yard', isUsed: false, content: { values: [{ pointer: '/t' }] } },
    ]);
    ingest.setMappings([mapping('saltmere-yard')]);
    await device.publishAsync('shed/7/say', '{"t":41.5}', { qos: 1 });
    await device.publishAsync(topicOf('p1'), reading(), { qos: 1 });
    await until('what it may publish', () => heard[0]);
    expect(heard).toEqual([topicOf('p1')]);
    expect([...store.kept.values()].map(({ site, probe, value }) => `${site}/${probe} ${value}`)).toEqual([
      'saltmere-yard/shed-7 41',
      'saltmere-yard/shed-7 41.5',
      'saltmere-yard/p1 41.5',
    ]);
    expect(reasons()).toEqual([]);
  });

  test('is not read for another site, and says nothing below $SYS or in our name', async () => {
    const { comeWith, ingest, store, reasons } = await start({ keys: [siteKey] });
    ingest.setMappings([mapping('oak-terrace')]);
    const device = await comeWith('yard');
    await device.publishAsync('shed/7/say', '{"t":41}', { qos: 1 });
    await device.publishAsync('piles-state/saltmere-yard/heap', '{}', { qos: 1 });
    await device.publishAsync('piles/oak-terrace/p1/reading', reading(), { qos: 1 });
    expect(store.kept.size).toBe(0);
    expect(reasons()).toEqual([['not-its-topic', 3]]);
    expect(ingest.foreignMessages().map(({ topic }) => topic)).toEqual(['shed/7/say']);
  });

  test('one with the key of a single probe stays on its topics', async () => {
    const { comeWith, ingest, reasons } = await start({ keys: [keyOf('p1')] });
    await (await comeWith('p1')).publishAsync('shed/7/say', '{"t":41}', { qos: 1 });
    expect(ingest.foreignMessages()).toEqual([]);
    expect(reasons()).toEqual([['not-its-topic', 1]]);
  });
});

describe('who has no key', () => {
  test('is parted from, and not let in again, once every probe needs one', async () => {
    const { come, authPolicy } = await start();
    const client = await come();
    const parted = closed(client);
    authPolicy.setEveryProbeNeedsAKey(true);
    await parted;
    await expect(come()).rejects.toThrow(/Not authorized/i);
  });

  test('may not say what only the server says', async () => {
    const { come, reasons } = await start();
    await (await come()).publishAsync('piles/saltmere-yard/siren', 'all is well', { qos: 1, retain: true });
    expect(reasons()).toEqual([['not-its-topic', 1]]);
  });
});

describe('TLS', () => {
  function certificate() {
    const folder = mkdtempSync(join(tmpdir(), 'branhearth-tls-'));
    closing.push(() => rmSync(folder, { recursive: true }));
    const [certFile, keyFile] = [join(folder, 'cert.pem'), join(folder, 'key.pem')];
    const subject = ['-subj', '/CN=saltmere.example', '-addext', 'subjectAltName=IP:127.0.0.1'];
    const made = ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes', '-days', '2'];
    execFileSync('openssl', [...made, ...subject, '-keyout', keyFile, '-out', certFile], { stdio: 'ignore' });
    return { port: 0, host: '127.0.0.1', certFile, keyFile };
  }

  test('is offered beside the plain port, with the same policy', async () => {
    const tls = certificate();
    const { come, ingest, store, authPolicy } = await start({ keys: [keyOf('p1')] }, { tls });
    const ca = execFileSync('cat', [tls.certFile]);
    const url = ingest.tlsUrl ?? '';
    expect(url).toMatch(/^mqtts:/);
    const client = await come({ ca, username: 'p1', password: secretOf('p1') }, url);
    await client.publishAsync(topicOf('p1'), reading(), { qos: 1 });
    await (await come()).publishAsync(topicOf('p9'), reading(), { qos: 1 });
    expect(store.kept.size).toBe(2);
    await expect(come({ ca, username: 'p1', password: 'x' }, url)).rejects.toThrow(/Bad username or password/i);
    expect(authPolicy.seen('p1')).toMatchObject({ connected: 1, address: '127.0.0.1' });
  });

  test('does not start without its files, and names the variable', async () => {
    const tls = { ...certificate(), keyFile: '/nowhere/key.pem' };
    await expect(start({}, { tls })).rejects.toThrow(
      /^BRANHEARTH_MQTT_TLS_KEY must be a file in PEM form[^\n]*nowhere/,
    );
  });

  test('one who speaks plainly to the TLS port harms nobody', async () => {
    const { come, ingest, store } = await start({}, { tls: certificate() });
    const socket = connectTcp(Number(new URL(ingest.tlsUrl ?? '').port), '127.0.0.1');
    socket.on('error', () => {});
    const ended = new Promise((resolve) => socket.once('close', resolve));
    socket.write(Buffer.from([0x10, 12, 0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 60, 0, 0]));
    await ended;
    await (await come()).publishAsync(topicOf('p1'), reading(), { qos: 1 });
    expect(store.kept.size).toBe(1);
  });
});

describe('a flood', () => {
  test('of one key is read no faster than its pace, and 50 honest probes lose nothing', async () => {
    const honest = Array.from({ length: 50 }, (_, index) => keyOf(`p${index}`));
    const { comeWith, store, authPolicy } = await start(
      { keys: [keyOf('flooder'), ...honest] },
      { packetsPerSecond: 20 },
    );
    const flooder = await comeWith('flooder');
    let acknowledged = 0;
    const flood = 20_000;
    for (let serial = 0; serial < flood; serial += 1) {
      flooder.publishAsync(topicOf('flooder'), reading(serial), { qos: 1 }).then(
        () => {
          acknowledged += 1;
        },
        () => {},
      );
    }
    const clients = await Promise.all(honest.map(({ id }) => comeWith(id)));
    for (let round = 0; round < 5; round += 1) {
      await Promise.all(
        clients.map((client, index) => client.publishAsync(topicOf(`p${index}`), reading(round), { qos: 1 })),
      );
    }
    const kept = [...store.kept.values()].filter(({ probe }) => probe !== 'flooder');
    expect(kept).toHaveLength(250);
    await until('it to be noticed', () => authPolicy.connectionAttempts.lines()[0]);
    expect(authPolicy.connectionAttempts.lines()).toMatchObject([
      { reason: 'too-fast', keyId: 'flooder', clientId: 'client-flooder' },
    ]);
    expect(acknowledged).toBeLessThan(flood);
  });

  test('of this machine without a key harms nobody either', async () => {
    const honest = Array.from({ length: 50 }, (_, index) => keyOf(`p${index}`));
    const { come, comeWith, store } = await start({ keys: honest });
    const flooder = await come();
    let flooding = true;
    const flood = (async () => {
      for (let serial = 0; flooding; serial += 500) {
        await Promise.all(
          Array.from({ length: 500 }, (_, one) =>
            flooder.publishAsync('garden/flood', String(serial + one), { qos: 1 }),
          ),
        );
      }
    })();
    const clients = await Promise.all(honest.map(({ id }) => comeWith(id)));
    await Promise.all(clients.map((client, index) => client.publishAsync(topicOf(`p${index}`), reading(), { qos: 1 })));
    flooding = false;
    await flood;
    expect(store.kept.size).toBe(50);
  });

  test('what one who does not read should hear is left out, and the probes are not held up', async () => {
    const { come, store, logged, ingest } = await start();
    const socket = connectTcp(Number(new URL(ingest.url).port), '127.0.0.1');
    closing.push(() => socket.destroy());
    socket.write(Buffer.from([0x10, 13, 0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 0, 0, 1, 0x78])); // CONNECT, clean, "x"
    socket.write(Buffer.from([0x82, 6, 0, 1, 0, 1, 0x23, 0])); // SUBSCRIBE #
    await until('its answers', () => (socket.bytesRead >= 9 ? true : undefined));
    socket.pause();
    const client = await come();
    const heavy = 'x'.repeat(60_000);
    for (let round = 0; round < 200; round += 1) await client.publishAsync('garden/heavy', heavy, { qos: 1 });
    await client.publishAsync(topicOf('p1'), reading(), { qos: 1 });
    expect(store.kept.size).toBe(1);
    expect(logged).toContain('somebody listens slower than messages come; some pass by');
  });
});

describe('the pace of a key', () => {
  const packOf = (records: number) =>
    JSON.stringify([
      { bn: 'temperature', bu: 'Cel', v: 41.5 },
      ...Array.from({ length: records - 1 }, (_, one) => ({ v: 41.5, t: -1 - one })),
    ]);

  test('goes by the readings in a packet too, so that packs of thousands are read no faster than single ones', async () => {
    const { comeWith, store, authPolicy } = await start({ keys: [keyOf('p1')] }, { packetsPerSecond: 10 });
    const client = await comeWith('p1');
    await client.publishAsync(topicOf('p1'), packOf(1_500), { qos: 1 }); // worth 150 packets; 100 may come at once
    client.publishAsync(topicOf('p1'), reading(), { qos: 1 }).catch(() => {});
    await until('it to be held back', () => authPolicy.connectionAttempts.totals()['too-fast'] || undefined);
    expect(store.kept.size).toBe(1_500);
  });

  test('is one for all connections of a probe', async () => {
    const { comeWith, authPolicy, store } = await start({ keys: [keyOf('p1')] }, { packetsPerSecond: 10 });
    const [first, second] = [await comeWith('p1', { clientId: 'a' }), await comeWith('p1', { clientId: 'b' })];
    await first.publishAsync(topicOf('p1'), packOf(1_500), { qos: 1 });
    second.publishAsync(topicOf('p1'), reading(), { qos: 1 }).catch(() => {});
    // The first may be held back too, when its long message comes in pieces.
    const heldBack = () => authPolicy.connectionAttempts.lines().filter(({ reason }) => reason === 'too-fast');
    await until('the other to be held back', () => heldBack().some(({ clientId }) => clientId === 'b') || undefined);
    expect(store.kept.size).toBe(1_500);
  });
});

describe('too many', () => {
  const openTcp = async (port: number, localAddress: string) => {
    const socket = connectTcp({ port, host: '127.0.0.1', localAddress });
    socket.on('error', () => {});
    socket.resume(); // else its end would not be noticed
    closing.push(() => socket.destroy());
    await new Promise((resolve) => socket.once('connect', resolve));
    return socket;
  };

  test('connections that say nothing make room for one that does', async () => {
    const { come, ingest, store, authPolicy } = await start({}, { maxConnections: 20 });
    const port = Number(new URL(ingest.url).port);
    for (let one = 0; one < 40; one += 1) await openTcp(port, `127.0.0.${2 + (one % 5)}`);
    await (await come()).publishAsync(topicOf('p1'), reading(), { qos: 1 });
    expect(store.kept.size).toBe(1);
    expect(authPolicy.connectionAttempts.totals()['too-many']).toBe(0);
  });

  test('connections of one address leave room for those of others, and none that was let in is ended', async () => {
    const { come, authPolicy, ingest } = await start({}, { maxConnections: 10 });
    const clients = await Promise.all(Array.from({ length: 9 }, () => come()));
    const tenth = await openTcp(Number(new URL(ingest.url).port), '127.0.0.1');
    await until('it to be ended', () => tenth.closed || undefined);
    expect(authPolicy.connectionAttempts.lines()).toMatchObject([
      { reason: 'too-many', address: '127.0.0.1', count: 1 },
    ]);
    const port = Number(new URL(ingest.url).port);
    const other = new MqttClient(() => connectTcp({ port, host: '127.0.0.1', localAddress: '127.0.0.2' }), {});
    closing.push(() => other.endAsync(true));
    await new Promise((resolve) => other.once('connect', resolve));
    expect(clients.every(({ connected }) => connected)).toBe(true);
  });
});
