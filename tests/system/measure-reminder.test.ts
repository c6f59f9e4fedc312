/**
 * A grower with a thermometer alone, the built program and a real mail server: who wants it is reminded once when a pile is due to
 * be measured, and again when the next time has come. Who did not ask for it is not.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { preferencesSchema } from '../../shared/notifications.ts';
import { freePort } from '../helpers/free-port.ts';
import { type MailServer, startMailServer } from '../helpers/mail-server.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { cookiesOf, fromOwnPage, passwordOf } from '../helpers/people.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const startMs = Date.parse('2031-06-01T06:00:00Z');
/** An hour of the server is two seconds here. */
const speed = 1_800;

let box: MailServer;
let installation: SpawnedInstallation;
let remove: () => Promise<void>;
let anchorMs: number;
let publicUrl = '';

beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  box = await startMailServer();
  const port = String(await freePort());
  publicUrl = `http://127.0.0.1:${port}`;
  anchorMs = Date.now() + 5_000;
  installation = await spawnInstallation(folder.dataDir, {
    environment: {
      PORT: port,
      PUBLIC_URL: publicUrl,
      SMTP_URL: box.url,
      MAIL_FROM: 'alarms@saltmere.example',
      CLOCK: JSON.stringify({ startMs, anchorMs, speed }),
      LOG_LEVEL: 'info',
    },
  });
});
afterAll(async () => {
  await installation?.stop();
  await box?.close();
  await remove?.();
});

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

async function comeIn(secret: string, name: string): Promise<Headers> {
  const answer = await ask('POST', '/api/links/use', fromOwnPage, { secret, name, password: passwordOf(name) });
  const cookies = answer.headers.getSetCookie().map((line) => {
    const [key = '', value = ''] = (line.split(';')[0] ?? '').split('=');
    return { name: key, value };
  });
  return { cookie: cookiesOf({ cookies }), ...fromOwnPage };
}

async function prefer(person: Headers, address: string, measureReminders: boolean): Promise<void> {
  const preferences = preferencesSchema.parse({ email: { on: true, address }, measureReminders });
  await ask('PUT', '/api/notifications', person, preferences);
  await ask('POST', '/api/notifications/mail/code', person);
  const mail = await until('the code', () =>
    box.mails.find(({ to, parsed }) => to.includes(address) && parsed.subject === codeSubject),
  );
  await ask('POST', '/api/notifications/mail/confirmation', person, {
    code: /\b\d{4} \d{4}\b/.exec(mail.parsed.text ?? '')?.[0],
  });
}

const codeSubject = 'Branhearth: is this your address?';
const messagesTo = (name: string) =>
  box.mails.filter(({ to, parsed }) => to.includes(`${name}@saltmere.example`) && parsed.subject !== codeSubject);
const serverMs = () => startMs + (Date.now() - anchorMs) * speed;

test('whoever wants it is reminded once for each time that the pile is due', async () => {
  const setup = await until(
    'the link of the start',
    () => /\/setup#([A-Za-z0-9_-]{43})/.exec(installation.output())?.[1],
  );
  const olive = await comeIn(setup, 'Olive');
  const invitation = (await (await ask('POST', '/api/invitations', olive, { role: 'keeper', days: 1 })).json()) as {
    address: string;
  };
  const kim = await comeIn(new URL(invitation.address).hash.slice(1), 'Kim');
  await prefer(olive, 'olive@saltmere.example', true);
  await prefer(kim, 'kim@saltmere.example', false);
  await ask('POST', '/api/sites', olive, { name: 'Saltmere Yard' });
  await ask('POST', '/api/piles', olive, { site: 'saltmere-yard', id: 'cart-shed', name: 'Cart shed', stage: 'bran' });

  const [first] = await until('the first reminder', () =>
    messagesTo('olive').length > 0 ? messagesTo('olive') : undefined,
  );
  expect(first?.parsed.subject).toBe('Cart shed: time to measure it');
  expect(first?.parsed.text).toContain('Cart shed at Saltmere Yard: Nobody has measured the core yet');
  expect(first?.parsed.text).toContain(`${publicUrl}/piles/cart-shed/journal?write=measured`);

  await ask('POST', '/api/piles/cart-shed/entries', olive, {
    at: new Date(serverMs()).toISOString(),
    what: { kind: 'measured', position: 'core', temperatureC: 24 },
  });
  const again = await until('the next reminder', () =>
    messagesTo('olive').length > 1 ? messagesTo('olive') : undefined,
  );
  expect(again).toHaveLength(2);
  expect(again[1]?.parsed.text).toMatch(/Measure the core/);
  expect(messagesTo('kim')).toEqual([]);
});
