import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { connectAsync, type IClientOptions } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import {
  type KeysAnswer,
  keysAnswerSchema,
  type MadeKey,
  madeKeySchema,
  refusedConnectionsAnswerSchema,
} from '../../shared/contracts/keys.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function open(environment: Record<string, string> = {}) {
  const folder = await makeDataDir();
  closing.push(folder.remove);
  const one = await openTestInstallation(folder.dataDir, environment);
  closing.push(() => one.close());
  return one;
}

const probeKey = { name: 'Core of bay one', site: 'saltmere-yard', probe: 'p1', foreign: [], hears: 'own' };

async function make(one: TestInstallation, change: object = {}): Promise<MadeKey> {
  const answer = await one.app.inject({ method: 'POST', url: '/api/keys', payload: { ...probeKey, ...change } });
  expect(answer.statusCode).toBe(201);
  expect(answer.headers['cache-control']).toBe('no-store');
  return madeKeySchema.parse(answer.json());
}

async function list(one: TestInstallation): Promise<KeysAnswer> {
  return keysAnswerSchema.parse((await one.app.inject({ url: '/api/keys' })).json());
}

async function come(one: TestInstallation, options: IClientOptions = {}) {
  const client = await connectAsync(one.installation.ingest.url, { reconnectPeriod: 0, ...options });
  client.on('error', () => {});
  closing.push(() => client.endAsync(true));
  return client;
}

const used = ({ id, secret }: MadeKey) => ({ username: id, password: secret });

describe('a key', () => {
  test('works at once, is seen, and stops working at once when it is revoked', async () => {
    const one = await open();
    const made = await make(one);
    const client = await come(one, used(made));
    await client.publishAsync('piles/saltmere-yard/p1/temperature', '41.5', { qos: 1 });
    expect((await list(one)).keys).toMatchObject([
      { id: made.id, revokedAt: null, seen: { connected: 1, address: '127.0.0.1' } },
    ]);
    const parted = new Promise<void>((resolve) => client.once('close', () => resolve()));
    expect((await one.app.inject({ method: 'DELETE', url: `/api/keys/${made.id}` })).statusCode).toBe(204);
    await parted;
    await expect(come(one, used(made))).rejects.toThrow(/Bad username or password/i);
    expect((await list(one)).keys[0]?.revokedAt).not.toBeNull();
    expect((await one.app.inject({ method: 'DELETE', url: `/api/keys/${made.id}` })).statusCode).toBe(404);
  });

  test('works after a restart, and one that was revoked still does not', async () => {
    const folder = await makeDataDir();
    closing.push(folder.remove);
    const before = await openTestInstallation(folder.dataDir);
    const [kept, revoked] = [await make(before), await make(before)];
    await before.app.inject({ method: 'DELETE', url: `/api/keys/${revoked.id}` });
    await before.close();
    const after = await openTestInstallation(folder.dataDir);
    closing.push(() => after.close());
    await come(after, used(kept));
    await expect(come(after, used(revoked))).rejects.toThrow(/Bad username or password/i);
  });

  test('has its secret shown once, and kept nowhere', async () => {
    const one = await open();
    const { secret } = await make(one);
    expect(secret).toMatch(/^[0-9a-hjkmnp-tv-z]{32}$/);
    expect(JSON.stringify(await list(one))).not.toContain(secret);
    const { dataDir } = one;
    await one.installation.journal.check();
    for (const name of ['journal.db', 'journal.db-wal']) {
      const file = join(dataDir, name);
      if (existsSync(file)) expect((await readFile(file)).includes(secret)).toBe(false);
    }
  });

  test('tells what to enter at the probe, and a command and a code that say the same', async () => {
    const one = await open();
    const made = await make(one);
    const { port } = new URL(one.installation.ingest.url);
    expect(Object.fromEntries(made.lines.map(({ name, value }) => [name, value]))).toEqual({
      Server: '127.0.0.1',
      Port: port,
      TLS: 'no',
      'User name': made.id,
      Password: made.secret,
      'Publish to': 'piles/saltmere-yard/p1/reading',
      'Last will': 'piles/saltmere-yard/p1/status',
    });
    expect(made.broker).toEqual({ host: '127.0.0.1', port: Number(port), tls: false, onlyHere: true });
    expect(made.code.path).toMatch(/^M\d+ \d+h1v1h-1z/);
    await promisify(execFile)('/bin/sh', ['-c', made.example]);
    await until('the reading', () => one.installation.probes.of('saltmere-yard', 'p1').last.temperature);
  });

  const wrong: [string, object, string][] = [
    ['a probe without a site', { site: null }, '/site'],
    ['neither speaking nor listening', { site: null, probe: null }, '/site'],
    ['a foreign topic that is ours', { foreign: ['piles/oak-terrace/p1/reading'] }, '/foreign/0'],
    ['a foreign topic that is everything', { foreign: ['a/b', '#'] }, '/foreign/1'],
    ['a foreign topic that is none', { foreign: ['a/#/b'] }, '/foreign/0'],
    ['no name', { name: ' ' }, '/name'],
    ['a site that cannot stand in a topic', { site: 'a/b' }, '/site'],
  ];
  for (const [what, change, pointer] of wrong) {
    test(`with ${what} is refused, naming ${pointer}`, async () => {
      const one = await open();
      const answer = await one.app.inject({ method: 'POST', url: '/api/keys', payload: { ...probeKey, ...change } });
      expect([400, 422]).toContain(answer.statusCode);
      expect(answer.json<{ errors: { pointer: string }[] }>().errors.map((error) => error.pointer)).toContain(pointer);
      expect((await list(one)).keys).toEqual([]);
    });
  }
});

test('once every probe needs a key, none without comes in, also after a restart', async () => {
  const folder = await makeDataDir();
  closing.push(folder.remove);
  const before = await openTestInstallation(folder.dataDir);
  const made = await make(before);
  await come(before);
  const payload = { everyProbeNeedsAKey: true };
  const answer = await before.app.inject({ method: 'PUT', url: '/api/keys/rule', payload });
  expect(keysAnswerSchema.parse(answer.json()).everyProbeNeedsAKey).toBe(true);
  await expect(come(before)).rejects.toThrow(/Not authorized/i);
  await before.close();
  const after = await openTestInstallation(folder.dataDir);
  closing.push(() => after.close());
  await expect(come(after)).rejects.toThrow(/Not authorized/i);
  await come(after, used(made));
});

test('who was turned away is told with address, client id, the key named and how often', async () => {
  const one = await open();
  const made = await make(one);
  const wrong = { username: made.id, password: 'a-guess', clientId: 'shed' };
  await expect(come(one, wrong)).rejects.toThrow();
  await expect(come(one, wrong)).rejects.toThrow();
  const answer = (await one.app.inject({ url: '/api/ingest/refused-connections' })).json();
  expect(refusedConnectionsAnswerSchema.parse(answer)).toMatchObject({
    total: 2,
    turnedAway: [{ reason: 'wrong-secret', address: '127.0.0.1', clientId: 'shed', key: 'Core of bay one', count: 2 }],
  });
  expect(JSON.stringify(answer)).not.toContain('a-guess');
  const metrics = (await one.app.inject({ url: '/metrics' })).body;
  expect(metrics).toContain('branhearth_turned_away_total{reason="wrong-secret"} 2');
});
