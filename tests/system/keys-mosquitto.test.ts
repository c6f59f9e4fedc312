// The files made from the keys, given to a real Mosquitto: there that broker decides, by the same rules.
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync, type IClientOptions } from 'mqtt';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type MadeKey, madeKeySchema } from '../../shared/contracts/keys.ts';
import { hasMosquitto, type Mosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

describe.skipIf(!hasMosquitto)('a Mosquitto with the files made from the keys', () => {
  const installationSecret = 'of-the-server-itself';
  const closing: (() => unknown)[] = [];
  let broker: Mosquitto;
  let one: TestInstallation;
  let probe: MadeKey;
  let gateway: MadeKey;
  let lamp: MadeKey;
  let revoked: MadeKey;

  beforeAll(async () => {
    const folder = await mkdtemp(join(tmpdir(), 'branhearth-keys-'));
    closing.push(() => rm(folder, { recursive: true }));
    const [passwords, topics] = [join(folder, 'passwords'), join(folder, 'topics')];
    await writeFile(passwords, '');
    await writeFile(topics, '');
    broker = await startMosquitto({ allow_anonymous: 'false', password_file: passwords, acl_file: topics });
    closing.push(() => broker.remove());
    const data = await makeDataDir();
    closing.push(data.remove);
    one = await openTestInstallation(data.dataDir, {
      MQTT_URL: broker.url,
      MQTT_USERNAME: 'branhearth',
      MQTT_PASSWORD: installationSecret,
    });
    closing.push(() => one.close());
    const own = { name: 'one', site: 'saltmere-yard', probe: 'p1', foreign: [], hears: 'own' };
    probe = await make({ ...own, foreign: ['garden/+/temp'] });
    gateway = await make({ ...own, name: 'Gateway\nuser everybody\ntopic readwrite #', probe: null });
    lamp = await make({ ...own, site: null, probe: null, hears: 'warnings' });
    revoked = await make(own);
    await one.app.inject({ method: 'DELETE', url: `/api/keys/${revoked.id}` });
    await broker.stop();
    const fileAt = async (name: string) => (await one.app.inject({ url: `/api/keys/mosquitto/${name}` })).body;
    await writeFile(passwords, await fileAt('passwords'));
    await writeFile(topics, await fileAt('topics'));
    await broker.start();
    await until('the server to be let in', () => one.installation.ingest.health().state === 'ok' || undefined);
  });
  afterAll(async () => {
    for (const close of closing.reverse()) await close();
  });

  async function make(key: object): Promise<MadeKey> {
    return madeKeySchema.parse((await one.app.inject({ method: 'POST', url: '/api/keys', payload: key })).json());
  }

  async function come(key: MadeKey, change: IClientOptions = {}) {
    const client = await connectAsync(broker.url, {
      username: key.id,
      password: key.secret,
      reconnectPeriod: 0,
      ...change,
    });
    closing.push(() => client.endAsync(true));
    return client;
  }

  test('lets the server in by its own name, and reads from it', async () => {
    expect(one.installation.ingest.health()).toMatchObject({ state: 'ok' });
  });

  test('tells a probe its way: the address of that broker', () => {
    expect(probe.broker).toMatchObject({ host: '127.0.0.1', port: broker.port, tls: false });
  });

  test('lets a probe speak for itself and on its foreign topics only, a gateway for its site', async () => {
    const watcher = await connectAsync(broker.url, {
      username: 'branhearth',
      password: installationSecret,
      clientId: 'watcher',
    });
    closing.push(() => watcher.endAsync(true));
    const heard: string[] = [];
    watcher.on('message', (topic) => heard.push(topic));
    await watcher.subscribeAsync('#', { qos: 1 });
    const client = await come(probe);
    const passes = ['piles/saltmere-yard/p1/temperature', 'garden/bed/temp'];
    const stays = ['piles/saltmere-yard/p2/temperature', 'piles/oak-terrace/p1/temperature', 'garden/bed/other'];
    for (const topic of [...stays, ...passes]) await client.publishAsync(topic, '41.5', { qos: 1 });
    const other = await come(gateway);
    await other.publishAsync('piles/oak-terrace/p7/temperature', '40', { qos: 1 });
    await other.publishAsync('piles/saltmere-yard/p7/temperature', '40', { qos: 1 });
    await until('what the gateway may say', () => heard.includes('piles/saltmere-yard/p7/temperature') || undefined);
    expect(heard).toEqual([...passes, 'piles/saltmere-yard/p7/temperature']);
    await until('the reading', () => one.installation.probes.of('saltmere-yard', 'p1').last.temperature);
  });

  test('lets a lamp hear what warns and nothing else', async () => {
    const client = await come(lamp);
    const heard: string[] = [];
    client.on('message', (topic) => heard.push(topic));
    await client.subscribeAsync(['piles/#', 'piles/+/siren']).catch(() => {}); // Mosquitto may say 0x80 to the first
    await (await come(probe)).publishAsync('piles/saltmere-yard/p1/temperature', '41', { qos: 1 });
    const installation = await connectAsync(broker.url, {
      username: 'branhearth',
      password: installationSecret,
      clientId: 'client',
    });
    closing.push(() => installation.endAsync(true));
    await installation.publishAsync('piles/saltmere-yard/siren', 'warm', { qos: 1 });
    await until('the warning', () => heard[0]);
    expect(heard).toEqual(['piles/saltmere-yard/siren']);
  });

  test('turns away a wrong secret, a revoked key and who has none', async () => {
    await expect(come(probe, { password: 'x' })).rejects.toThrow();
    await expect(come(revoked)).rejects.toThrow();
    await expect(connectAsync(broker.url, { reconnectPeriod: 0 })).rejects.toThrow();
    await expect(come(probe, { username: 'everybody' })).rejects.toThrow();
  });
});
