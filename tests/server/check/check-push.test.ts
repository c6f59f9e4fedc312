import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, onTestFinished, test } from 'vitest';
import webPush from 'web-push';
import { checkPush } from '../../../server/check/check-push.ts';
import { keysSetting } from '../../../server/notify/channels/push-keys.ts';
import { allowedKey } from '../../../server/notify/delivery-settings.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { inspectJournal } from '../../../shared/store/open/inspect-journal.ts';
import { makeCertificate, type Receiver, startReceiver } from '../../helpers/https-server.ts';
import { scratchFolder } from '../../shared/store/scratch.ts';

const certificate = makeCertificate('127.0.0.1');
let receiver: Receiver;
let dataDir: string;
let journal: Journal;

beforeAll(async () => {
  receiver = await startReceiver(certificate);
});
afterAll(() => receiver.close());
beforeEach(async () => {
  dataDir = scratchFolder();
  journal = await openSqliteJournal(join(dataDir, 'journal.db'));
  onTestFinished(() => journal.close());
});

async function check() {
  const opened = inspectJournal(undefined, dataDir);
  const found = await checkPush(() => opened, { trust: certificate.cert });
  await opened.then(
    (look) => look?.close(),
    () => undefined,
  );
  return found;
}

/** As its page would have signed it up. */
async function device(port: number, keys: unknown = webPush.generateVAPIDKeys()): Promise<void> {
  await journal.settings.write(keysSetting, keys);
  await journal.settings.write(allowedKey, [`127.0.0.1:${port}`]);
  await journal.notifications.devices.keep({
    id: 'd1',
    personId: 'p1',
    endpoint: `https://127.0.0.1:${port}/device/of-a-phone`,
    p256dh: 'p',
    auth: 'a',
    label: 'Phone of the shed',
    addedAtMs: 1,
    lastOkAtMs: null,
    madeWith: null,
  });
}

test('check of push is off before the first start and while no device takes messages', async () => {
  expect(await checkPush(async () => undefined)).toMatchObject({ part: 'push', state: 'off' });
  expect(await check()).toMatchObject({ state: 'off' });
});

test('check of push reaches the service of each device, and tells it nothing of the device', async () => {
  await device(receiver.port);
  expect(await check()).toEqual({
    part: 'push',
    state: 'ok',
    says: `our keys are whole, and https://127.0.0.1:${receiver.port} can be reached`,
  });
  expect(receiver.got.map(({ method, path, body }) => [method, path, body.length])).toEqual([['GET', '/', 0]]);
});

test('check of push names a service there is no way to', async () => {
  await device(9);
  expect(await check()).toMatchObject({
    state: 'wrong',
    says: expect.stringMatching(/^no way to https:\/\/127\.0\.0\.1:9 \(.*ECONNREFUSED/),
    mend: expect.stringMatching(/port 443/),
  });
});

test('check of push says that damaged keys are made anew, and that a journal cannot be read', async () => {
  await device(receiver.port, { publicKey: 'half', privateKey: '' });
  expect(await check()).toMatchObject({ state: 'wrong', mend: expect.stringMatching(/it makes new ones/) });
  expect(await checkPush(() => Promise.reject(new Error('damaged')))).toMatchObject({
    state: 'wrong',
    says: expect.stringMatching(/which cannot be read/),
  });
});
