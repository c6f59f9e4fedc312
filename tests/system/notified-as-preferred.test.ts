/**
 * Three people of one server, the built program, a real mail server and a webhook: one reading raises an alarm, and each is told as
 * they preferred: Olive by e-mail at once and in °F, Kim by webhook and e-mail once her quiet hours are over, Vera of another site not
 * at all. Kim acknowledges by the link in her message, and nobody is told twice.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync, type MqttClient } from 'mqtt';
import { Webhook } from 'standardwebhooks';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { alarmsAnswerSchema } from '../../shared/contracts/alarms.ts';
import { alarmLinkAnswerSchema } from '../../shared/contracts/notifications.ts';
import { type Preferences, preferencesSchema } from '../../shared/notifications.ts';
import type { Role } from '../../shared/person.ts';
import { freePort } from '../helpers/free-port.ts';
import { makeCertificate, type Receiver, startReceiver } from '../helpers/https-server.ts';
import { type MailServer, startMailServer } from '../helpers/mail-server.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { cookiesOf, fromOwnPage, passwordOf } from '../helpers/people.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const site = 'saltmere-yard';
/** Twenty past eleven at night in Lisbon; a minute of the server is half a second here. */
const startMs = Date.parse('2031-06-01T22:20:00Z');
const speed = 120;
const quietEndMs = Date.parse('2031-06-01T23:20:00Z');

let box: MailServer;
let receiver: Receiver;
let installation: SpawnedInstallation;
let probe: MqttClient;
let anchorMs: number;
const folders: (() => Promise<void>)[] = [];

beforeAll(async () => {
  const certificate = makeCertificate('127.0.0.1');
  const trusted = await mkdtemp(join(tmpdir(), 'branhearth-trust-'));
  folders.push(() => rm(trusted, { recursive: true }));
  await writeFile(join(trusted, 'cert.pem'), certificate.cert);
  const data = await makeDataDir();
  folders.push(data.remove);
  const port = String(await freePort());
  [box, receiver] = await Promise.all([startMailServer(), startReceiver(certificate)]);
  receiver.answer = (_got, response) => void response.writeHead(204).end();
  anchorMs = Date.now() + 5_000;
  installation = await spawnInstallation(data.dataDir, {
    environment: {
      PORT: port,
      PUBLIC_URL: `http://127.0.0.1:${port}`,
      SMTP_URL: box.url,
      MAIL_FROM: 'alarms@saltmere.example',
      CLOCK: JSON.stringify({ startMs, anchorMs, speed }),
      LOG_LEVEL: 'info',
    },
    plainEnvironment: { NODE_EXTRA_CA_CERTS: join(trusted, 'cert.pem') },
  });
  probe = await connectAsync(installation.mqttUrl);
});
afterAll(async () => {
  await probe?.endAsync();
  await installation?.stop();
  await Promise.all([box?.close(), receiver?.close(), ...folders.map((remove) => remove())]);
});

const serverMs = () => startMs + (Date.now() - anchorMs) * speed;
const machineMs = (atMs: number) => anchorMs + (atMs - startMs) / speed;

type Headers = Record<string, string>;
async function ask(method: string, path: string, headers: Headers, body?: object): Promise<Response> {
  const answer = await fetch(installation.pagesUrl + path, {
    method,
    headers: { ...headers, ...(body && { 'content-type': 'application/json' }) },
    ...(body && { body: JSON.stringify(body) }),
  });
  if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
  return answer;
}

/** @returns What their browser sends from then on. */
async function comeIn(secret: string, name: string): Promise<Headers> {
  const answer = await ask('POST', '/api/links/use', fromOwnPage, { secret, name, password: passwordOf(name) });
  const cookies = answer.headers.getSetCookie().map((line) => {
    const [name = '', value = ''] = (line.split(';')[0] ?? '').split('=');
    return { name, value };
  });
  return { cookie: cookiesOf({ cookies }), ...fromOwnPage };
}

async function invite(owner: Headers, name: string, role: Role): Promise<Headers> {
  const { address } = (await (await ask('POST', '/api/invitations', owner, { role, days: 1 })).json()) as {
    address: string;
  };
  return comeIn(new URL(address).hash.slice(1), name);
}

/** Keeps preferences, and confirms the address in them by the code that comes there. */
async function prefer(person: Headers, preferences: Partial<Preferences> & Pick<Preferences, 'email'>): Promise<void> {
  await ask(
    'PUT',
    '/api/notifications',
    person,
    preferencesSchema.parse({ timeZone: 'Europe/Lisbon', ...preferences }),
  );
  await ask('POST', '/api/notifications/mail/code', person);
  const mail = await until('the code', () =>
    box.mails.find(({ to, parsed }) => to.includes(preferences.email.address) && parsed.subject === codeSubject),
  );
  const code = /\b\d{4} \d{4}\b/.exec(mail.parsed.text ?? '')?.[0];
  await ask('POST', '/api/notifications/mail/confirmation', person, { code });
}

const measure = (atMs: number, temperature: number) =>
  probe.publishAsync(
    `piles/${site}/core/reading`,
    JSON.stringify({ temperature, time: new Date(atMs).toISOString() }),
    { qos: 1 },
  );

const codeSubject = 'Branhearth: is this your address?';
const messagesTo = (name: string) =>
  box.mails.filter(({ to, parsed }) => to.includes(`${name}@saltmere.example`) && parsed.subject !== codeSubject);

test('one reading alarms three people: each is told as they preferred, and once', async () => {
  const setup = await until(
    'the link of the start',
    () => /\/setup#([A-Za-z0-9_-]{43})/.exec(installation.output())?.[1],
  );
  const olive = await comeIn(setup, 'Olive');
  const kim = await invite(olive, 'Kim', 'keeper');
  const vera = await invite(olive, 'Vera', 'viewer');
  await ask('PUT', '/api/notifications/server', olive, {
    allowedAddresses: [`127.0.0.1:${receiver.port}`],
    heartbeatUrl: null,
  });
  for (const name of ['Saltmere Yard', 'Hill Barn']) await ask('POST', '/api/sites', olive, { name });
  const laidAt = new Date(startMs - 48 * hourMs).toISOString();
  await ask('POST', '/api/piles', kim, { site, id: 'deep-heap', name: 'Deep heap', stage: 'bran', startedAt: laidAt });

  const { secret } = (await (await ask('POST', '/api/notifications/webhook-secret', kim)).json()) as { secret: string };
  await prefer(olive, { unit: 'F', email: { on: true, address: 'olive@saltmere.example' } });
  await prefer(kim, {
    sites: [site],
    fromSeverity: 'warning',
    quiet: { fromMin: 22 * 60, toMin: 20 },
    email: { on: true, address: 'kim@saltmere.example' },
    webhook: { on: true, url: `https://127.0.0.1:${receiver.port}/kim` },
  });
  await prefer(vera, { sites: ['hill-barn'], email: { on: true, address: 'vera@saltmere.example' } });

  for (const [agoMin, tempC] of [
    [600, 38],
    [300, 44],
    [120, 47.5],
    [60, 48.2],
    [20, 49],
  ] as const)
    await measure(serverMs() - agoMin * minuteMs, tempC);
  await until('the probe', async () =>
    (await (await ask('GET', '/api/probes', kim)).text()).includes('"core"') ? true : undefined,
  );
  await ask('POST', `/api/probes/${site}/core/claim`, kim, { pileId: 'deep-heap', position: 'core', since: laidAt });
  expect(messagesTo('olive')).toEqual([]);

  // The only one over the limit, so that it is the one that alarms however fast this machine is; from here on the clock does the rest.
  await measure(serverMs(), 52.6);
  const first = await until('the e-mail to Olive', () => messagesTo('olive')[0]);
  expect(first.parsed.text).toMatch(/Deep heap at Saltmere Yard is too hot/);
  expect(first.parsed.text).toMatch(/The core was at 126\.7 °F (just now|\d+ minutes? ago)/);
  expect(first.atMs).toBeLessThan(machineMs(quietEndMs));
  const alarm = await until('the alarm', async () => {
    const { alarms } = alarmsAnswerSchema.parse(await (await ask('GET', '/api/piles/deep-heap/alarms', vera)).json());
    return alarms.find(({ kind, state }) => kind === 'overheating' && state === 'unacknowledged');
  });
  const told = async () =>
    alarmLinkAnswerSchema
      .parse(await (await ask('GET', `/api/alarms/${alarm.id}/notifications`, olive)).json())
      .notices.flatMap(({ messages }) => messages)
      .map(({ person, channel, state, notBefore, reason }) => ({ person, channel, state, notBefore, reason }));
  const held = { person: 'Kim', state: 'held', reason: 'quiet hours', notBefore: new Date(quietEndMs).toISOString() };
  expect(await told()).toEqual(
    expect.arrayContaining([
      expect.objectContaining({ ...held, channel: 'email' }),
      expect.objectContaining({ ...held, channel: 'webhook' }),
      expect.objectContaining({ person: 'Olive', channel: 'email', state: 'sent' }),
    ]),
  );
  expect([messagesTo('kim').length, receiver.got.length]).toEqual([0, 0]);

  // Kim's quiet is over at 00:20 in Lisbon.
  const second = await until('the e-mail to Kim', () => messagesTo('kim')[0]);
  const hook = await until('the webhook to Kim', () => receiver.got.find(({ path }) => path === '/kim'));
  expect(second.atMs).toBeGreaterThanOrEqual(machineMs(quietEndMs) - 50);
  expect(second.parsed.text).toMatch(/Deep heap at Saltmere Yard is too hot/);
  expect(second.parsed.text).toMatch(/The core was at 52\.6 °C/);
  const body = new Webhook(secret).verify(hook.body.toString(), hook.headers as Headers) as { data: { alarm: string } };
  expect(body.data.alarm).toBe(alarm.id);

  // She acknowledges from the message, without signing in; everybody can see who did.
  const link = /http:\/\/127\.0\.0\.1:\d+\/acknowledge\/[\w-]+/.exec(second.parsed.text ?? '')?.[0] ?? '';
  expect((await fetch(link, { method: 'POST' })).status).toBe(200);
  const after = alarmsAnswerSchema.parse(await (await ask('GET', '/api/piles/deep-heap/alarms', vera)).json());
  expect(after.alarms.find(({ id }) => id === alarm.id)).toMatchObject({ state: 'acknowledged' });
  expect(await (await fetch(`${installation.pagesUrl}/api/alarms/${alarm.id}`, { headers: olive })).text()).toMatch(
    /"by":"Kim"/,
  );

  // An hour and more of the server later nobody has been told again, and Vera never was.
  const laterMs = serverMs() + 70 * minuteMs;
  await until('an hour of the server', () => (serverMs() > laterMs ? true : undefined), 100_000);
  const about = (name: string) =>
    messagesTo(name).filter(({ parsed }) => /Deep heap at Saltmere Yard is too hot/.test(parsed.text ?? '')).length;
  expect([about('olive'), about('kim'), messagesTo('vera').length, receiver.got.length]).toEqual([1, 1, 0, 1]);
}, 240_000);
