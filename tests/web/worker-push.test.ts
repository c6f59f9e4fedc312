/**
 * What the service worker does with pushed messages, in a real browser: the browser itself hands them over.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../server/app/app.ts';
import { type BuiltPages, buildPages, hasPush, launchBrowser } from '../helpers/browser.ts';
import { until } from '../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from '../server/notify/farm.ts';

describe.skipIf(!hasPush)('the service worker', () => {
  let farm: NotifyFarm;
  let pages: BuiltPages;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  let close: () => Promise<void>;
  let push: (data: string) => Promise<void>;
  beforeAll(async () => {
    [pages, browser] = await Promise.all([buildPages(), launchBrowser({ takesPush: true })]);
    farm = await openNotifyFarm({});
    const app = await buildApp(farm.one.installation, { pagesDir: pages.dir });
    const url = await app.listen({ port: 0, host: '127.0.0.1' });
    close = () => app.close();
    context = await browser.newContext({ permissions: ['notifications'] });
    page = await context.newPage();
    const client = await context.newCDPSession(page);
    let registrationId: string | undefined;
    client.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
      registrationId = registrations[0]?.registrationId ?? registrationId;
    });
    await client.send('ServiceWorker.enable');
    await page.goto(url);
    // Pages built for tests do not sign it up by themselves.
    await page.evaluate(() =>
      navigator.serviceWorker
        .register('/sw.js')
        .then(() => navigator.serviceWorker.ready)
        .then(() => true),
    );
    const id = await until('the registration', () => registrationId);
    push = (data) =>
      client.send('ServiceWorker.deliverPushMessage', { origin: url, registrationId: id, data }).then(() => undefined);
  });
  afterAll(async () => {
    await browser?.close();
    await close?.();
    await farm?.close();
    await pages?.remove();
  });

  const shown = () =>
    until('the notification', () =>
      page.evaluate(async () => {
        const worker = await navigator.serviceWorker.ready;
        const all = await worker.getNotifications();
        const found = all.map(({ title, body, tag, data }) => ({ title, body, tag, data: data as unknown }));
        return found.length > 0 ? found : undefined;
      }),
    );

  /** In the language of whoever reads, as the server sends them. */
  const words = {
    acknowledge: 'Dar por visto',
    done: 'Dado por visto',
    notDone: 'Ahora no',
    failed: 'No se pudo',
    failedSays: 'Prueba otra vez.',
  };

  test('shows a warning, and a newer one of the same alarm in its place', async () => {
    const message = {
      tag: 'alarm-1',
      title: 'Shed: too hot',
      body: 'Shed is too hot.',
      severity: 2,
      path: '/piles/shed',
      acknowledge: 's'.repeat(43),
      words,
    };
    await push(JSON.stringify(message));
    expect(await shown()).toEqual([
      {
        title: 'Shed: too hot',
        body: 'Shed is too hot.',
        tag: 'alarm-1',
        data: { path: '/piles/shed', acknowledge: 's'.repeat(43), words },
      },
    ]);
    await push(JSON.stringify({ ...message, title: 'Shed: still too hot' }));
    await until('the newer one', async () => ((await shown())[0]?.title === 'Shed: still too hot' ? true : undefined));
    expect(await shown()).toHaveLength(1);
  });

  test('says something even of a message it cannot read', async () => {
    await push('not json');
    const titles = await until('the second', async () => {
      const all = await shown();
      return all.length > 1 ? all.map(({ title }) => title) : undefined;
    });
    expect(titles).toContain('Branhearth');
  });
});
