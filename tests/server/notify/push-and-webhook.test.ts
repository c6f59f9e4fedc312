import { Webhook } from 'standardwebhooks';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import {
  type NotificationView,
  notificationSchema,
  notificationsAnswerSchema,
} from '../../../shared/contracts/notifications.ts';
import { type GotRequest, makeCertificate, type Receiver, startReceiver } from '../../helpers/https-server.ts';
import { checkVapid, makePushBrowser, type PushBrowser } from '../../helpers/push-browser.ts';
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
  receiver.answer = (_got, response) => void response.writeHead(201).end();
  farm = await openNotifyFarm({ PUBLIC_URL: 'https://farm.saltmere.example' }, { trust: certificate.cert });
  await put('/api/notifications/server', { allowedAddresses: [`127.0.0.1:${receiver.port}`], heartbeatUrl: null });
});
afterEach(() => farm.close());

const here = (path: string) => `https://127.0.0.1:${receiver.port}${path}`;
async function put(url: string, payload: object) {
  const answer = await farm.one.app.inject({ method: 'PUT', url, payload });
  expect(answer.statusCode, answer.body).toBe(200);
}
const notifications = async () =>
  notificationsAnswerSchema.parse((await farm.one.app.inject({ url: '/api/notifications' })).json());
async function askTest(channel: string): Promise<string> {
  const { id } = (await farm.post('/api/notifications/test', { channel })) as { id: string };
  return id;
}
const noticeOf = async (id: string): Promise<NotificationView> =>
  notificationSchema.parse((await farm.one.app.inject({ url: `/api/notifications/notices/${id}` })).json());
/** What became of a test message, once it is no longer on its way. */
const endOf = (id: string) =>
  until('the end of the message', async () => {
    const [message] = (await noticeOf(id)).messages;
    return message && message.attempts.length > 0 ? message : undefined;
  });

describe('web push', () => {
  let browser: PushBrowser;
  const subscribe = (path = '/device') =>
    farm.post('/api/notifications/devices', { endpoint: here(path), keys: browser.keys, label: 'Phone of the shed' });
  beforeEach(() => {
    browser = makePushBrowser();
  });

  test('brings a warning that only the device can read, signed by the server', async () => {
    const { pushKey } = await notifications();
    await subscribe();
    const { id } = await farm.overheat();
    const request = await until('the push', () => receiver.got.find(({ path }) => path === '/device'));
    expect(request.headers).toMatchObject({ 'content-encoding': 'aes128gcm', urgency: 'high' });
    expect(request.headers.topic).toMatch(/^[\w-]{1,32}$/);
    const { publicKey, sub } = checkVapid(request, `https://127.0.0.1:${receiver.port}`, Date.now() / 1000);
    expect([publicKey, sub]).toEqual([pushKey, 'https://farm.saltmere.example']);
    expect(request.body.includes('Shed')).toBe(false);
    const message = JSON.parse(browser.decrypt(request.body)) as Record<string, string>;
    expect(message).toMatchObject({
      title: 'Shed: too hot',
      tag: id,
      path: '/piles/shed',
      words: { acknowledge: 'Acknowledge', failed: 'Could not acknowledge' },
    });
    expect(message.body).toMatch(/^Shed at Saltmere Yard is too hot\./);
    expect(() => makePushBrowser().decrypt(request.body)).toThrow();
    // The button on the notification acknowledges with the secret that came along.
    const pressed = await farm.one.app.inject({
      method: 'POST',
      url: `/acknowledge/${message.acknowledge}`,
      headers: { accept: 'application/json' },
    });
    expect(pressed.json()).toMatchObject({ state: 'done' });
    expect((await farm.alarms()).find((alarm) => alarm.id === id)?.state).toBe('acknowledged');
  });

  test('keeps one key pair over restarts', async () => {
    const { pushKey } = await notifications();
    await farm.reopen();
    expect((await notifications()).pushKey).toBe(pushKey);
  });

  test.each([
    ['cut off', '{"publicKey":"BB'],
    ['of two that do not belong together', '{"publicKey":"BPx4","privateKey":"c2VjcmV0"}'],
    ['of another shape', '[]'],
  ])(
    'with damaged keys, %s: made anew, devices of before end, owners are told, and a device added again gets its messages',
    async (_, damaged) => {
      const { pushKey } = await notifications();
      await subscribe();
      await farm.prefer({ webhook: { on: true, url: here('/owner') } });
      await farm.one.installation.journal.settings.set('push-keys', damaged);
      await farm.reopen();
      const toOwner = await until('word to the owner', () => receiver.got.find(({ path }) => path === '/owner'));
      expect(toOwner.body.toString()).toMatch(
        /keys for push messages were damaged and were made anew\. One device gets/,
      );
      const after = await notifications();
      expect(after.devices).toEqual([]);
      expect(after.pushKey).not.toBe(pushKey);
      expect(await farm.post('/api/notifications/devices/here', { endpoint: here('/device') })).toEqual({
        isSubscribed: false,
        pushKey: after.pushKey,
      });
      await subscribe();
      const message = await endOf(await askTest('push'));
      expect(message.state).toBe('sent');
      const request = receiver.got.find(({ path }) => path === '/device');
      if (!request) throw new Error('nothing was pushed');
      expect(checkVapid(request, `https://127.0.0.1:${receiver.port}`, Date.now() / 1000).publicKey).toBe(
        after.pushKey,
      );
      const aside = await farm.one.installation.journal.settings.get('set-aside/setting/push-keys');
      expect(aside).toBe(damaged);
    },
  );

  test('with keys that are damaged while it runs makes them anew when they are next wanted', async () => {
    await subscribe();
    await farm.one.installation.journal.settings.set('push-keys', '{"cut');
    const message = await endOf(await askTest('push'));
    expect([message.state, (await notifications()).devices]).toEqual(['given-up', []]);
  });

  test.each([404, 410])('removes a device of which its service says %i', async (status) => {
    await subscribe();
    receiver.answer = (_got, response) => void response.writeHead(status).end();
    const message = await endOf(await askTest('push'));
    expect([message.state, (await notifications()).devices]).toEqual(['given-up', []]);
  });

  test('lists devices, and removes one that is asked to go', async () => {
    await subscribe();
    await subscribe(); // the same endpoint again is the same device
    const { devices } = await notifications();
    expect(devices.map(({ label }) => label)).toEqual(['Phone of the shed']);
    const gone = await farm.one.app.inject({ method: 'DELETE', url: `/api/notifications/devices/${devices[0]?.id}` });
    expect([gone.statusCode, (await notifications()).devices]).toEqual([204, []]);
  });

  test('an endpoint inside the network is not asked', async () => {
    await farm.post('/api/notifications/devices', {
      endpoint: 'https://127.0.0.1:1/x',
      keys: browser.keys,
      label: 'sly',
    });
    const message = await endOf(await askTest('push'));
    expect([message.state, message.attempts[0]?.detail]).toEqual([
      'given-up',
      expect.stringMatching(/owner must allow/),
    ]);
  });
});

describe('webhook', () => {
  const prefer = (path = '/hook') => farm.prefer({ webhook: { on: true, url: here(path) } });
  const secret = async () => ((await farm.post('/api/notifications/webhook-secret')) as { secret: string }).secret;
  const headersOf = ({ headers }: GotRequest) => headers as Record<string, string>;

  test('is signed as the reference library wants it; changed, old or unsigned it is refused there', async () => {
    await prefer();
    const hook = new Webhook(await secret());
    const { id } = await farm.overheat();
    const request = await until('the webhook', () => receiver.got.find(({ path }) => path === '/hook'));
    const body = hook.verify(request.body.toString(), headersOf(request)) as { type: string; data: { alarm: string } };
    expect([body.type, body.data.alarm]).toEqual(['alarm.first-raise', id]);
    expect(() => hook.verify(`${request.body} `, headersOf(request))).toThrow();
    const old = { ...headersOf(request), 'webhook-timestamp': String(Math.floor(Date.now() / 1000) - 600) };
    expect(() => hook.verify(request.body.toString(), old)).toThrow(/old/);
    expect(() =>
      new Webhook(`whsec_${Buffer.from('x'.repeat(24)).toString('base64')}`).verify(
        request.body.toString(),
        headersOf(request),
      ),
    ).toThrow();
  });

  test('tries again what failed, under the same id, with a signature of its own', async () => {
    await prefer();
    let failures = 1;
    receiver.answer = (_got, response) =>
      void response.writeHead(failures-- > 0 ? 503 : 204, { 'retry-after': '0' }).end();
    const id = await askTest('webhook');
    const [first, second] = await until('the second attempt', () =>
      receiver.got.length > 1 ? receiver.got : undefined,
    );
    expect(second?.headers['webhook-id']).toBe(first?.headers['webhook-id']);
    const message = await until('it to be sent', async () => {
      const [one] = (await noticeOf(id)).messages;
      return one?.state === 'sent' ? one : undefined;
    });
    expect(message.attempts.map(({ outcome, detail }) => `${outcome} ${detail}`)).toEqual([
      'failed HTTP 503',
      'sent HTTP 204',
    ]);
  });

  test('does not follow a redirect, and says so', async () => {
    await prefer();
    receiver.answer = (_got, response) => void response.writeHead(307, { location: here('/elsewhere') }).end();
    const message = await endOf(await askTest('webhook'));
    expect([message.state, message.reason]).toEqual(['given-up', 'HTTP 307: a redirect, which is not followed']);
    expect(receiver.got.map(({ path }) => path)).toEqual(['/hook']);
  });

  test('a receiver that hangs holds up nobody else', async () => {
    receiver.answer = ({ path }, response) => void (path === '/hook' ? undefined : response.writeHead(201).end());
    await prefer();
    const browser = makePushBrowser();
    await farm.post('/api/notifications/devices', { endpoint: here('/device'), keys: browser.keys, label: 'Phone' });
    await farm.overheat();
    await until('both to be asked', () =>
      new Set(receiver.got.map(({ path }) => path)).size === 2 ? true : undefined,
    );
    const readings = await farm.one.app.inject({ url: '/api/health' });
    expect(readings.statusCode).toBe(200);
  });
});

test('who may be told is told in the description of what an alarm caused', async () => {
  await farm.prefer({ webhook: { on: true, url: here('/hook') } });
  const { id } = await farm.overheat();
  const notified = await until('it to be sent', async () => {
    const { notices } = (await farm.one.app.inject({ url: `/api/alarms/${id}/notifications` })).json() as {
      notices: NotificationView[];
    };
    return notices[0]?.messages[0]?.state === 'sent' ? notices : undefined;
  });
  expect(notified[0]).toMatchObject({
    reason: 'first-raise',
    messages: [
      {
        person: 'the server',
        channel: 'webhook',
        address: `127.0.0.1:${receiver.port}`,
        attempts: [{ number: 1, outcome: 'sent' }],
      },
    ],
  });
});
