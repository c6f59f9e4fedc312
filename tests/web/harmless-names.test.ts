/** Names, notes and photos that carry scripts, shown by the real pages in a real browser: nothing of them runs, and the policy stands. */
import type { AddressInfo } from 'node:net';
import { connectAsync } from 'mqtt';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type BuiltPages, buildPages, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir, openTestHouse, type TestHouse } from '../helpers/open-test-house.ts';

const script = `"><img src=x onerror="window.ran=1"><script>window.ran=1</script><svg onload="window.ran=1">`;
let one: TestHouse;
let pages: BuiltPages;
let browser: Browser;
let remove: () => Promise<void>;

beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  [pages, browser] = await Promise.all([buildPages(), launchBrowser()]);
  one = await openTestHouse(folder.dataDir, {}, undefined, { pagesDir: pages.dir });
  await one.app.listen({ host: '127.0.0.1', port: 0 });
});
afterAll(async () => {
  await browser?.close();
  await one?.close();
  await pages?.remove();
  await remove?.();
});

test('a pile’s name, a note, a name beside it, an outcome, a foreign topic and a photo that is none run nothing', async () => {
  const { app, house } = one;
  const post = (url: string, payload: object) => app.inject({ method: 'POST', url, payload });
  await post('/api/sites', { id: 'yard', name: script.slice(0, 80) });
  const made = await post('/api/piles', { id: 'bay', site: 'yard', name: script.slice(0, 80), stage: 'bran' });
  expect(made.statusCode).toBe(201);
  const batch = made.json<{ batch: { id: string } }>().batch.id;
  await post('/api/piles/bay/entries', { note: script, by: script.slice(0, 80), what: { kind: 'note' } });
  await app.inject({
    method: 'PATCH',
    url: `/api/batches/${batch}`,
    payload: { outcome: script, name: script.slice(0, 80) },
  });
  const svg = Buffer.from(
    '<svg xmlns="http://www.w3.org/2000/svg" onload="window.ran=1"><script>window.ran=1</script></svg>',
  );
  const photo = { method: 'PUT', url: '/api/photos/photo-of-mine', payload: svg } as const;
  expect((await app.inject({ ...photo, headers: { 'content-type': 'image/svg+xml' } })).statusCode).toBe(415);
  expect((await app.inject({ ...photo, headers: { 'content-type': 'image/png' } })).statusCode).toBe(422);
  const probe = await connectAsync(house.ingest.url);
  for (const topic of [`piles/yard/${script.replaceAll(/[#+]/g, '')}/reading`, 'piles/yard/p1/reading']) {
    await probe.publishAsync(topic, topic.endsWith('p1/reading') ? script : '{"temperature":30}', { qos: 1 });
  }
  await probe.endAsync();

  const url = `http://127.0.0.1:${(app.server.address() as AddressInfo).port}`;
  const page = await browser.newPage();
  page.setDefaultTimeout(10_000);
  const visited = [
    '/',
    '/piles/bay',
    '/piles/bay/journal',
    `/batches/${batch}`,
    `/batches/${batch}/record`,
    '/batches',
    '/lineage',
    '/incoming',
    '/probes',
    '/piles/bay/label',
    '/seasons',
  ];
  for (const path of visited) {
    const answer = await page.goto(url + path);
    expect(answer?.headers()['content-security-policy']).toContain("script-src 'self'");
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.waitForLoadState('networkidle').catch(() => undefined);
    expect([path, await page.evaluate(() => 'ran' in window)]).toEqual([path, false]);
  }
  // The policy itself holds: what would be put into the page by force does not run either.
  await page.evaluate(() => {
    const planted = document.createElement('div');
    planted.innerHTML = '<img src="x" onerror="window.ran=1">';
    document.body.append(planted);
    const inline = document.createElement('script');
    inline.textContent = 'window.ran=1';
    document.body.append(inline);
  });
  await page.waitForTimeout(300);
  expect(await page.evaluate(() => 'ran' in window)).toBe(false);
}, 120_000);
