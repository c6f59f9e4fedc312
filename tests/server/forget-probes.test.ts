// A probe is forgotten with all it said: from every answer at once, from the disk by and by, and never one whose readings
// belong to the record of a pile.
import { connectAsync } from 'mqtt';
import { afterEach, expect, test } from 'vitest';
import { probesAnswerSchema } from '../../shared/contracts/probes.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const site = 'saltmere-yard';
const tempOf = (probe: string) => [{ site, probe, quantity: 'temperature' as const }];

async function open(environment: Record<string, string> = {}) {
  const { dataDir, remove } = await makeDataDir();
  const { installation, app, close } = await openTestInstallation(dataDir, environment);
  closing.push(remove, close);
  const client = await connectAsync(installation.ingest.url, { reconnectPeriod: 0 });
  closing.push(() => client.endAsync(true));
  let said = 0;
  const say = (probe: string, leaf = 'reading') => {
    said += 1;
    const payload =
      leaf === 'status' ? 'online' : JSON.stringify({ temperature: 41.5, time: Date.now() - said * 60_000 });
    return client.publishAsync(`piles/${site}/${probe}/${leaf}`, payload, { qos: 1, retain: leaf === 'status' });
  };
  const call = async (method: 'GET' | 'POST' | 'DELETE', url: string, payload?: object) => {
    const answer = await app.inject({ method, url, ...(payload && { payload }) });
    return { status: answer.statusCode, body: answer.json() };
  };
  const names = async () =>
    probesAnswerSchema.parse((await call('GET', '/api/probes')).body).probes.map(({ probe }) => probe);
  const forget = (probe: string) => call('DELETE', `/api/probes/${site}/${probe}`);
  const layBed = async () => {
    await call('POST', '/api/sites', { name: 'Saltmere Yard' });
    await call('POST', '/api/piles', { site, id: 'bed', name: 'Bed', stage: 'bran' });
  };
  const rows = (probe: string) => installation.readings.rows(tempOf(probe), 0, Date.now() + 1_000, 100);
  return { installation, client, say, call, names, forget, layBed, rows };
}

test('a probe that no pile ever had is forgotten with its readings, its status and its place, and it is written down', async () => {
  const { installation, client, say, call, names, forget, rows } = await open({ UNCLAIMED_PROBES: '2' });
  await say('stray');
  await say('stray', 'status');
  await say('other');
  await until('its status', async () => ((await installation.journal.probes.list()).length > 0 ? 1 : undefined));
  await say('third'); // no room
  expect(await names()).toEqual(['other', 'stray']);

  expect(await forget('stray')).toEqual({ status: 200, body: { forgotten: 1, kept: 0 } });
  expect(await names()).toEqual(['other']);
  expect([(await rows('stray')).length, (await rows('other')).length]).toEqual([0, 1]);
  expect(await installation.journal.probes.list()).toEqual([]);
  expect((await installation.readings.lasts()).map(({ probe }) => probe)).toEqual(['other']);
  const audit = (await call('GET', '/api/audit')).body as { entries?: { what: string }[] };
  expect(JSON.stringify(audit)).toContain('forgot a probe and all it said');

  const heard: string[] = [];
  client.on('message', (topic) => heard.push(topic));
  await client.subscribeAsync('piles/#');
  await say('third'); // there is room again
  await until('what is said now', () => (heard.length > 0 ? 1 : undefined));
  expect(heard).toEqual([`piles/${site}/third/reading`]);
  expect(await names()).toEqual(['other', 'third']);
});

test('one that sends again comes back, with what it says from then on alone', async () => {
  const { say, names, forget, rows, call } = await open();
  await say('stray');
  await forget('stray');
  await say('stray');
  expect([await names(), (await rows('stray')).length]).toEqual([['stray'], 1]);
  expect((await call('DELETE', `/api/probes/${site}/never-heard-of`)).status).toBe(404);
});

test('one that serves a pile or once did is not forgotten, alone or among many', async () => {
  const { say, call, names, forget, layBed, rows } = await open();
  await layBed();
  for (const probe of ['serves', 'served', 'stray-1', 'stray-2']) await say(probe);
  for (const [probe, position] of [
    ['serves', 'core'],
    ['served', 'top'],
  ] as const)
    await call('POST', `/api/probes/${site}/${probe}/claim`, { pileId: 'bed', position });
  await call('DELETE', `/api/probes/${site}/served/claim`);
  for (const probe of ['serves', 'served']) {
    const { status, body } = await forget(probe);
    expect([status, (body as { detail: string }).detail]).toEqual([
      409,
      `Cannot forget ${site}/${probe} as its readings belong to the record of a pile that it serves or once served.`,
    ]);
  }
  expect(await call('POST', '/api/probes/forget', { find: '' })).toEqual({
    status: 200,
    body: { forgotten: 2, kept: 1 },
  });
  expect(await names()).toEqual(['serves', 'served']);
  expect([(await rows('served')).length, (await rows('stray-1')).length]).toEqual([1, 0]);
});

test('many are forgotten by a part of their name, and the others stay', async () => {
  const { say, call, names } = await open();
  for (let one = 0; one < 30; one += 1) await say(`made-up-${one}`);
  await say('mine');
  expect((await call('POST', '/api/probes/forget', { find: 'MADE-UP-1' })).body).toEqual({ forgotten: 11, kept: 0 });
  expect(await names()).toHaveLength(20);
  expect((await call('POST', '/api/probes/forget', {})).status).toBe(400);
});

test('a database that takes no rows away says so, and nothing is forgotten', async () => {
  const { installation, say, names, forget } = await open();
  await say('stray');
  Object.defineProperty(installation.readings, 'cannotForget', {
    value: verbatim('Cannot forget what a probe said as the store is old.'),
  });
  expect(await forget('stray')).toMatchObject({
    status: 409,
    body: { detail: 'Cannot forget what a probe said as the store is old.' },
  });
  expect(await names()).toEqual(['stray']);
});
