/**
 * Services that bring messages, against a double that speaks as each documents itself. What was read of that, and what is
 * from memory, stands at each of `server/notify/channels/services/`.
 */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
  type NotificationView,
  notificationSchema,
  notificationsAnswerSchema,
} from '../../../shared/contracts/notifications.ts';
import type { AuditEntry } from '../../../shared/contracts/people.ts';
import { type ServiceChannel, serviceKey } from '../../../shared/notification-services/services.ts';
import { makeCertificate, type Receiver, startReceiver } from '../../helpers/https-server.ts';
import { until } from '../../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from './farm.ts';

const certificate = makeCertificate('127.0.0.1');
let receiver: Receiver;
let farm: NotifyFarm;

beforeAll(async () => {
  receiver = await startReceiver(certificate);
});
afterAll(() => receiver.close());
beforeEach(async () => {
  receiver.got.length = 0;
  here = `https://127.0.0.1:${receiver.port}`;
  receiver.answer = (_got, response) => void response.writeHead(200).end('{}');
  farm = await openNotifyFarm(
    { PUBLIC_URL: 'https://farm.saltmere.example' },
    { trust: certificate.cert, homes: { pushover: here, telegram: here } },
  );
  await allow([`127.0.0.1:${receiver.port}`]);
});
afterEach(() => farm.close());

let here = '';
async function send(method: 'PUT' | 'DELETE', url: string, payload?: object) {
  return farm.one.app.inject({ method, url, ...(payload && { payload }) });
}
const allow = (allowedAddresses: string[]) =>
  send('PUT', '/api/notifications/server', { allowedAddresses, heartbeatUrl: null });
async function setUp(channel: ServiceChannel, values: Record<string, string>, on = true) {
  const answer = await send('PUT', '/api/notifications/services', { channel, on, values });
  expect(answer.statusCode, answer.body).toBe(200);
}
const notifications = async () =>
  notificationsAnswerSchema.parse((await farm.one.app.inject({ url: '/api/notifications' })).json());
const noticeOf = async (id: string): Promise<NotificationView> =>
  notificationSchema.parse((await farm.one.app.inject({ url: `/api/notifications/notices/${id}` })).json());
const askTest = async (channel: string) =>
  ((await farm.post('/api/notifications/test', { channel })) as { id: string }).id;
/** What became of a test, once it was tried. */
async function testBy(channel: string) {
  const id = await askTest(channel);
  return until('the end of the test', async () => {
    const [message] = (await noticeOf(id)).messages;
    const last = message?.attempts.at(-1);
    return message && last ? { state: message.state, address: message.address, detail: last.detail } : undefined;
  });
}
const answers = (status: number, body: object | string, headers: Record<string, string> = {}) => {
  receiver.answer = (_got, response) =>
    void response.writeHead(status, headers).end(typeof body === 'string' ? body : JSON.stringify(body));
};
const first = () => until('the request', () => receiver.got[0]);
const json = (body: Buffer) => JSON.parse(body.toString()) as Record<string, unknown>;

const pushoverUser = 'uQiRzpo4DXghDmr9QzzfQu27cmVRsG';
const pushoverToken = 'azGDORePK8gMaC0QOYAMyEEuzJnyUi';
const telegramToken = '123456:ABC-DEF1234ghIkl-zyx57W2v1u123ew11';

const cases: Partial<Record<ServiceChannel, () => Record<string, string>>> = {
  ntfy: () => ({ server: here, topic: 'saltmere-Xq7', token: 'tk_sourdough' }),
  pushover: () => ({ user: pushoverUser, token: pushoverToken }),
  telegram: () => ({ token: telegramToken, chat: '-100123456' }),
  matrix: () => ({ server: here, room: '!pile:saltmere.example', token: 'syt_sourdough' }),
  apprise: () => ({ server: here, key: 'saltmere_Xq7' }),
};
const secretsOf: Partial<Record<ServiceChannel, readonly string[]>> = {
  ntfy: ['saltmere-Xq7', 'tk_sourdough'],
  pushover: [pushoverToken, pushoverUser],
  telegram: [telegramToken],
  matrix: ['syt_sourdough'],
  apprise: ['saltmere_Xq7'],
};

describe.each(Object.keys(cases) as ServiceChannel[])('%s', (channel) => {
  const values = () => cases[channel]?.() ?? {};
  const secrets = secretsOf[channel] ?? [];

  test('keeps its secrets and gives none back, not in answers, audit log, messages or links', async () => {
    await setUp(channel, values());
    const shown = JSON.stringify(await notifications());
    await farm.overheat();
    await first();
    const alarm = (await farm.alarms())[0];
    const notified = (await farm.one.app.inject({ url: `/api/alarms/${alarm?.id}/notifications` })).body;
    const rows = (await farm.one.app.inject({ url: '/api/audit' })).json<{ entries: AuditEntry[] }>().entries;
    expect(rows.some(({ subject }) => subject === channel)).toBe(true);
    for (const secret of secrets) expect(`${shown}${JSON.stringify(rows)}${notified}`).not.toContain(secret);
    expect((await notifications()).services[0]).toMatchObject({ channel, on: true });
  });

  test('keeps a secret that is left out, and sends nothing once it is removed', async () => {
    await setUp(channel, values());
    const open = Object.entries(values()).filter(([, value]) => !secrets.includes(value));
    await setUp(channel, Object.fromEntries(open), false);
    expect((await testBy(channel)).state).toBe('sent');
    expect((await send('DELETE', `/api/notifications/services/${channel}`)).statusCode).toBe(204);
    expect((await send('DELETE', `/api/notifications/services/${channel}`)).statusCode).toBe(404);
    expect((await noticeOf(await askTest(channel))).messages).toEqual([]);
    expect(receiver.got).toHaveLength(1);
  });

  test('is refused without what it needs, field by field', async () => {
    const answer = await send('PUT', '/api/notifications/services', { channel, on: true, values: {} });
    expect(answer.statusCode).toBe(400);
    const { errors } = answer.json<{ errors: { pointer: string }[] }>();
    expect(errors.length, answer.body).toBeGreaterThan(0);
    for (const { pointer } of errors) expect(Object.keys(values())).toContain(pointer.replace('/values/', ''));
    if (channel === 'pushover') expect(errors).toHaveLength(2);
    expect((await notifications()).services).toEqual([]);
  });

  test('a redirect inwards is not followed', async () => {
    await setUp(channel, values());
    answers(302, '', { location: 'http://169.254.169.254/latest' });
    const { state, detail } = await testBy(channel);
    expect([state, detail]).toEqual(['given-up', 'HTTP 302: a redirect, which is not followed']);
    expect(receiver.got).toHaveLength(1);
  });

  test('an address inside the network is not asked until an owner has allowed it', async () => {
    await setUp(channel, values());
    await allow([]);
    const { state, detail } = await testBy(channel);
    expect([state, detail]).toEqual(['given-up', expect.stringMatching(/owner must allow/)]);
    expect(receiver.got).toEqual([]);
  });

  test('with a key that is not accepted (401) is given up at once and says what to check', async () => {
    await setUp(channel, values());
    answers(401, faultOf(channel, `unauthorized: ${secrets[0]}`));
    const { state, detail } = await testBy(channel);
    expect(state).toBe('given-up');
    expect(detail).toMatch(/did not accept what was filled in \(HTTP 401: unauthorized: …\): check it/);
  });

  test.each([
    [429, /takes no more messages for now/],
    [503, /could not pass it on just now/],
  ])('answering %i is tried again, after as long as it asks for, as the same message', async (status, said) => {
    await setUp(channel, values());
    let failures = 1;
    receiver.answer = (_got, response) =>
      failures-- > 0
        ? void response.writeHead(status, { 'retry-after': '0' }).end(JSON.stringify(faultOf(channel, 'later')))
        : void response.writeHead(200).end('{}');
    const id = await askTest(channel);
    const message = await until('it to be sent', async () => {
      const [one] = (await noticeOf(id)).messages;
      return one?.state === 'sent' ? one : undefined;
    });
    expect(message.attempts.map(({ outcome }) => outcome)).toEqual(['failed', 'sent']);
    expect(message.attempts[0]?.detail).toMatch(said);
    expect(message.attempts[0]?.detail).toContain(`HTTP ${status}: later`);
  });

  test('that asks to wait an hour is not asked again before', async () => {
    await setUp(channel, values());
    answers(429, faultOf(channel, 'slow down'), { 'retry-after': '3600' });
    const id = await askTest(channel);
    const [message] = await until('the attempt', async () => {
      const { messages } = await noticeOf(id);
      return messages[0]?.attempts.length ? messages : undefined;
    });
    const kept = (await farm.one.installation.journal.notifications.notices.get(id))?.messages[0];
    expect(message?.state).toBe('waiting');
    expect((kept?.nextTryMs ?? 0) - Date.now()).toBeGreaterThan(3_500_000);
  });
});

/** An error as each service documents it. */
function faultOf(channel: ServiceChannel, said: string): object {
  if (channel === 'pushover') return { status: 0, request: '647d2300-702c-4b38-8b2f-d56326ae460b', errors: [said] };
  if (channel === 'telegram') return { ok: false, error_code: 429, description: said };
  if (channel === 'matrix') return { errcode: 'M_UNKNOWN', error: said };
  if (channel === 'ntfy') return { code: 40101, http: 401, error: said, link: 'https://ntfy.sh/docs/publish/' };
  return { error: said, details: [] };
}

describe('ntfy', () => {
  test('gets topic, title, text, priority by severity, a press that acknowledges and a way to the pile', async () => {
    await setUp('ntfy', cases.ntfy?.() ?? {});
    const { id } = await farm.overheat();
    const request = await first();
    expect([request.method, request.path, request.headers.authorization]).toEqual(['POST', '/', 'Bearer tk_sourdough']);
    const body = json(request.body) as { message: string; priority: number; actions: Record<string, unknown>[] };
    expect(body).toMatchObject({ topic: 'saltmere-Xq7', title: 'Shed: too hot' });
    expect(body.message).toMatch(/^Shed at Saltmere Yard is too hot\./);
    expect(body.priority).toBeGreaterThanOrEqual(4);
    const [acknowledge, look] = body.actions;
    expect(acknowledge).toMatchObject({
      action: 'http',
      method: 'POST',
      label: 'I have seen this',
      headers: { Accept: 'application/json' },
      clear: true,
    });
    expect(look).toEqual({ action: 'view', label: 'Look at it', url: 'https://farm.saltmere.example/piles/shed' });
    // The phone calls the address of the button.
    const { pathname } = new URL(String(acknowledge?.url));
    const pressed = await farm.one.app.inject({
      method: 'POST',
      url: pathname,
      headers: { accept: 'application/json' },
    });
    expect(pressed.json()).toMatchObject({ state: 'done' });
    expect((await farm.alarms()).find((alarm) => alarm.id === id)?.state).toBe('acknowledged');
  });

  test('is read in °F by whoever chose so', async () => {
    await farm.prefer({ unit: 'F' });
    await setUp('ntfy', cases.ntfy?.() ?? {});
    await farm.overheat();
    expect(String(json((await first()).body).message)).toMatch(/12\d °F/);
  });

  test('keeps nothing of an answer that repeats what it was sent', async () => {
    await setUp('ntfy', cases.ntfy?.() ?? {});
    answers(200, { id: 'sPs71M8A2T', event: 'message', topic: 'saltmere-Xq7', message: 'triggered' });
    expect(await testBy('ntfy')).toEqual({ state: 'sent', address: `127.0.0.1:${receiver.port}`, detail: 'HTTP 200' });
  });
});

describe('Pushover', () => {
  const receipt = 'r'.repeat(30);
  let acknowledged = 0;
  beforeEach(() => {
    acknowledged = 0;
    receiver.answer = ({ path }, response) => {
      const status = { status: 1, acknowledged, expired: 0, request: 'x' };
      const body = path.startsWith('/1/receipts/') ? status : { status: 1, request: 'x', receipt };
      response.writeHead(200).end(JSON.stringify(body));
    };
  });
  /** Grave enough to ring. */
  const ring = async () => {
    await setUp('pushover', cases.pushover?.() ?? {});
    const { id } = await farm.overheat(71);
    return id;
  };
  const stateOf = async (id: string) => (await farm.alarms()).find((alarm) => alarm.id === id)?.state;
  const rang = () =>
    until('an emergency', () =>
      receiver.got.find(({ path, body }) => path === '/1/messages.json' && json(body).priority === 2),
    );
  /** Until the outbox has noted what was sent, and the receipt with it. */
  const settled = async () => {
    await farm.one.installation.delivery.settled();
    await farm.one.installation.delivery.receipts.check();
  };

  test('what is urgent rings; acknowledged there it is acknowledged here, also after a restart', async () => {
    await ring();
    const body = json((await rang()).body);
    expect(body).toMatchObject({
      token: pushoverToken,
      user: pushoverUser,
      retry: 60,
      expire: 3_600,
      url_title: 'I have seen this',
    });
    expect(String(body.message).length).toBeLessThanOrEqual(1_024);
    await farm.one.installation.delivery.settled();
    await farm.reopen();
    const asking = (await farm.alarms()).filter(({ state }) => state === 'unacknowledged');
    expect(asking.length).toBeGreaterThan(0);
    const { settings } = farm.one.installation.journal;
    expect((await settings.readUnder('pushover-receipt/', z.unknown())).length).toBeGreaterThan(0);
    acknowledged = 1;
    await farm.one.installation.delivery.receipts.check();
    const asked = receiver.got.filter(({ path }) => path.startsWith(`/1/receipts/${receipt}.json?token=`));
    expect(asked.length).toBeGreaterThan(0);
    await until('it to be acknowledged', async () =>
      (await farm.alarms()).some(({ state }) => state === 'acknowledged') ? true : undefined,
    );
    await until('no receipt to be left', async () => {
      await farm.one.installation.delivery.receipts.check();
      const left = await settings.readUnder('pushover-receipt/', z.unknown());
      return left.length === 0 ? true : undefined;
    });
  });

  test('what is acknowledged here no longer rings there', async () => {
    await ring();
    await rang();
    await farm.one.installation.delivery.settled();
    for (const { id, state } of await farm.alarms())
      if (state === 'unacknowledged') await farm.post(`/api/alarms/${id}/acknowledge`, { by: 'Ada' });
    await settled();
    const cancelled = await until('the cancelling', () =>
      receiver.got.find(({ path }) => path === `/1/receipts/${receipt}/cancel.json`),
    );
    expect(json(cancelled.body)).toEqual({ token: pushoverToken });
    expect(await stateOf((await farm.alarms())[0]?.id ?? '')).toBe('acknowledged');
  });
});

describe('Telegram', () => {
  test('gets text and buttons from the bot, and is asked again when its body says so', async () => {
    await setUp('telegram', cases.telegram?.() ?? {});
    await farm.overheat();
    const request = await first();
    expect(request.path).toBe(`/bot${telegramToken}/sendMessage`);
    expect(json(request.body)).toMatchObject({
      chat_id: '-100123456',
      text: expect.stringMatching(/^Shed: too hot\n\nShed at Saltmere Yard is too hot\./),
      disable_notification: false,
      reply_markup: {
        inline_keyboard: [
          [{ text: 'I have seen this', url: expect.stringContaining('https://farm.saltmere.example/acknowledge/') }],
          [{ text: 'Look at it', url: 'https://farm.saltmere.example/piles/shed' }],
        ],
      },
    });
    receiver.got.length = 0;
    answers(429, { ok: false, error_code: 429, description: 'Too Many Requests', parameters: { retry_after: 1800 } });
    const id = await askTest('telegram');
    await first();
    await farm.one.installation.delivery.settled();
    const kept = (await farm.one.installation.journal.notifications.notices.get(id))?.messages[0];
    expect((kept?.nextTryMs ?? 0) - Date.now()).toBeGreaterThan(1_700_000);
  });

  test('a bot that was blocked (403) says so', async () => {
    await setUp('telegram', cases.telegram?.() ?? {});
    answers(403, { ok: false, error_code: 403, description: 'Forbidden: bot was blocked by the user' });
    expect((await testBy('telegram')).detail).toContain('Forbidden: bot was blocked by the user');
  });
});

describe('Matrix', () => {
  test('gets each message once, under its own transaction, as text that holds no markup of ours', async () => {
    await setUp('matrix', cases.matrix?.() ?? {});
    let failures = 1;
    receiver.answer = (_got, response) =>
      failures-- > 0
        ? void response.writeHead(502).end('<html>')
        : void response.writeHead(200).end('{"event_id":"$y"}');
    const id = await askTest('matrix');
    await until('it to be sent', async () => ((await noticeOf(id)).messages[0]?.state === 'sent' ? true : undefined));
    const [one, two] = receiver.got;
    expect(one?.method).toBe('PUT');
    expect(one?.path).toMatch(
      /^\/_matrix\/client\/v3\/rooms\/!pile%3Asaltmere\.example\/send\/m\.room\.message\/[\w-]+$/,
    );
    expect(two?.path).toBe(one?.path);
    expect(one?.headers.authorization).toBe('Bearer syt_sourdough');
    expect(json(one?.body ?? Buffer.alloc(0))).toMatchObject({ msgtype: 'm.text', format: 'org.matrix.custom.html' });
  });
});

describe('Apprise', () => {
  test('gets title, text with both addresses, and a type by severity', async () => {
    await setUp('apprise', cases.apprise?.() ?? {});
    await farm.overheat();
    const request = await first();
    expect([request.method, request.path]).toEqual(['POST', '/notify/saltmere_Xq7']);
    const body = json(request.body) as { body: string };
    expect(body).toMatchObject({ title: 'Shed: too hot', format: 'text' });
    expect(['warning', 'failure']).toContain((body as Record<string, unknown>).type);
    expect(body.body).toMatch(/I have seen this: https:\/\/farm\.saltmere\.example\/acknowledge\/[\w-]{43}/);
    expect(body.body).toContain('Look at it: https://farm.saltmere.example/piles/shed');
  });

  test('where nothing is kept under the key (204) nothing was sent, and that is said', async () => {
    await setUp('apprise', cases.apprise?.() ?? {});
    answers(204, '');
    const { state, detail } = await testBy('apprise');
    expect([state, detail]).toEqual(['given-up', expect.stringMatching(/^Apprise knows no such address or key/)]);
  });

  test('tries again when one of the services behind it failed (424)', async () => {
    await setUp('apprise', cases.apprise?.() ?? {});
    answers(424, { error: 'One or more notifications could not be sent', details: [] });
    expect((await testBy('apprise')).state).toBe('waiting');
  });
});

test('of somebody who is removed nothing that opens a service is kept', async () => {
  const { journal } = farm.one.installation;
  await journal.settings.write(serviceKey('kim', 'ntfy'), { on: true, values: { topic: 'saltmere-Xq7' } });
  await journal.settings.write(serviceKey('kimberly', 'ntfy'), { on: true, values: { topic: 'another-Xq7' } });
  await journal.people.remove('kim', 0);
  expect(await journal.settings.get(serviceKey('kim', 'ntfy'))).toBeUndefined();
  expect(await journal.settings.get(serviceKey('kimberly', 'ntfy'))).toContain('another-Xq7');
});
