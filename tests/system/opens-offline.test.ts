/**
 * On the phone: put beside other apps, opened while the server is away with what it last said and how old that is, live
 * again by itself, an entry written meanwhile kept once; nothing of it left for the next person.
 */
import { connectAsync } from 'mqtt';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { entriesAnswerSchema } from '../../shared/contracts/journal.ts';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { freePort } from '../helpers/free-port.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs, until } from '../helpers/until.ts';

let installation: SpawnedInstallation;
let browser: Browser;
let phone: BrowserContext;
let page: Page;
let folder: Awaited<ReturnType<typeof makeDataDir>>;
let environment: Record<string, string>;

const path = '/piles/cart-shed';
const notLive = 'Not live: the server is out of reach.';

beforeAll(async () => {
  if (!hasChromium) return;
  folder = await makeDataDir();
  environment = { PORT: String(await freePort()), MQTT_PORT: String(await freePort()) };
  installation = await spawnInstallation(folder.dataDir, { environment });
  const post = (where: string, body: object) =>
    fetch(installation.pagesUrl + where, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  await post('/api/sites', { name: 'Saltmere Yard', id: 'saltmere-yard' });
  await post('/api/piles', { site: 'saltmere-yard', id: 'cart-shed', name: 'Cart shed', stage: 'bran' });
  const probe = await connectAsync(installation.mqttUrl);
  await probe.publishAsync('piles/saltmere-yard/p1/reading', '{"temperature":41.5}', { qos: 1 });
  await probe.endAsync();
  await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'cart-shed', position: 'core' });
  browser = await launchBrowser();
  phone = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB', timezoneId: 'UTC' });
  page = await phone.newPage();
  page.setDefaultTimeout(patienceMs);
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await installation.stop();
  await folder.remove();
});

const openLive = async (where: string) => {
  await page.goto(installation.pagesUrl + where);
  await page.getByText(/^live/).waitFor();
};
const open = (where: string) => page.goto(installation.pagesUrl + where);

test.runIf(hasChromium)('the browser finds nothing that keeps it from being installed', async () => {
  await openLive('/');
  await expect.poll(() => page.evaluate('navigator.serviceWorker.controller !== null')).toBe(true);
  const devtools = await phone.newCDPSession(page);
  const { errors, url, data } = await devtools.send('Page.getAppManifest');
  expect([errors, url]).toEqual([[], `${installation.pagesUrl}/manifest.webmanifest`]);
  expect(JSON.parse(data ?? '')).toMatchObject({ name: 'Branhearth', start_url: '/', display: 'standalone' });
  const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
  // A window that is not among the person's own ones is no place to install into; nothing else may be wrong.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([]);
  for (const { src, sizes, purpose } of JSON.parse(data ?? '').icons) {
    const shape = await page.evaluate(`(async () => {
      const image = await createImageBitmap(await (await fetch('${src}')).blob());
      return image.width + 'x' + image.height;
    })()`);
    expect([shape, ['any', 'maskable'].includes(purpose)]).toEqual([sizes, true]);
  }
  const document = await (await fetch(installation.pagesUrl)).text();
  const asset = /\/assets\/[^"]+/.exec(document)?.[0] ?? '';
  for (const [file, keeping] of [
    ['/sw.js', 'no-cache'],
    ['/manifest.webmanifest', 'no-cache'],
    [asset, 'public, max-age=31536000, immutable'],
  ]) {
    expect([file, (await fetch(installation.pagesUrl + file)).headers.get('cache-control')]).toEqual([file, keeping]);
  }
});

test.runIf(hasChromium)(
  'loaded anew over a line that takes what is asked and answers nothing, it shows what the server last said',
  async () => {
    await openLive(path);
    await page.getByText(/41\.5/).first().waitFor();
    await openLive('/');
    await page.getByText(/41\.5/).first().waitFor();
    await page.route('**/api/**', () => undefined);
    await page.reload();
    await page.getByText(notLive).waitFor();
    await page.getByText(/41\.5/).first().waitFor();
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.getByText(/^live/).waitFor();
  },
);

test.runIf(hasChromium)(
  'loaded anew while the server is away, it shows what the server last said and how old that is',
  async () => {
    await openLive(path);
    await page.getByRole('heading', { name: 'Cart shed' }).waitFor();
    await page.getByText(/41\.5/).first().waitFor();
    await open(`${path}/journal`);
    await page.getByRole('button', { name: 'Watered' }).waitFor();
    await openLive('/');
    await page.getByText(/41\.5/).first().waitFor();
    await installation.stop();

    await page.reload();
    await page.getByText(notLive).waitFor();
    await page.getByRole('heading', { level: 1, name: /^When last heard: / }).waitFor();
    await page.getByText(/These figures are of (just now|\d+ (s|min) ago)/).waitFor();
    await page.getByRole('heading', { name: 'Cart shed' }).waitFor();
    await page.getByText(/41\.5/).first().waitFor();
    await page
      .getByText(/not live/)
      .first()
      .waitFor();
    // a page it was not on when it started
    await open(path);
    await page.getByText(notLive).waitFor();
    await page.getByRole('heading', { level: 1, name: 'Cart shed' }).waitFor();
  },
);

test.runIf(hasChromium)(
  'away from the server axe finds nothing and nothing scrolls sideways, light and dark, at both widths',
  async () => {
    for (const where of ['/', path]) {
      await open(where);
      await page.getByText(notLive).waitFor();
      await page.getByRole('heading', { name: 'Cart shed' }).waitFor();
      expect(await findingsInEveryLook(page, { widths: [1440, 360], height: 740 })).toEqual([]);
    }
  },
);

test.runIf(hasChromium)('the help opens out of reach, though nobody opened it before', async () => {
  await open('/help/probes');
  await page.getByText(notLive).waitFor();
  await page.getByRole('heading', { level: 1, name: 'Thermometers and probes' }).waitFor();
  await page.getByRole('link', { name: 'Help: all chapters' }).waitFor();
});

test.runIf(hasChromium)(
  'an entry written after it was opened without the server arrives once, when the server is back',
  async () => {
    await open(`${path}/journal`);
    await page.getByText(notLive).waitFor();
    await page.getByRole('button', { name: 'Watered' }).click();
    await page.getByLabel(/^Water given/).fill('12');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText('1 entry waits on this device.').waitFor();

    installation = await spawnInstallation(folder.dataDir, { environment });
    // live again without anybody touching the page
    await page.getByText(/^live/).waitFor();
    await page.getByText(notLive).waitFor({ state: 'detached' });
    await page.getByText('1 entry waits on this device.').waitFor({ state: 'detached' });
    const entries = await until('the entry', async () => {
      const answer = await fetch(`${installation.pagesUrl}/api/piles/cart-shed/entries?limit=40`);
      const found = entriesAnswerSchema.parse(await answer.json()).entries;
      return found.length > 0 ? found : undefined;
    });
    expect(entries.map(({ what }) => what)).toMatchObject([{ kind: 'watered', amountL: 12 }]);
  },
);

test.runIf(hasChromium)('who is no longer let in finds nothing of what was seen before', async () => {
  await openLive('/');
  await installation.stop();
  installation = await spawnInstallation(folder.dataDir, {
    environment: { ...environment, API_TOKEN: 'a token nobody told' },
  });
  await page.reload();
  await page.getByText('This server asks for its token.').waitFor();
  await installation.stop();
  await page.reload();
  await page.getByText('Branhearth does not answer yet.').waitFor();
  expect(await page.getByText('Cart shed').count()).toBe(0);
  const kept = await page.evaluate(`new Promise((resolve, reject) => {
    const request = indexedDB.open('branhearth-last');
    request.onerror = () => reject(request.error);
    request.onsuccess = () => {
      const all = request.result.transaction('answers').objectStore('answers').getAllKeys();
      all.onsuccess = () => resolve(all.result);
    };
  })`);
  expect(kept).toEqual([]);
  expect(
    await page.evaluate(`caches.keys().then((names) => names.filter((name) => !name.startsWith('branhearth-files-')))`),
  ).toEqual([]);
  installation = await spawnInstallation(folder.dataDir, { environment });
});
