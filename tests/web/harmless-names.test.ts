/** Names, notes and photos that carry scripts, shown by the real pages in a real browser: nothing of them runs, and the policy stands. */
import { connectAsync } from 'mqtt';
import type { Browser, Request } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { TestInstallation } from '../helpers/open-test-server.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

const script = `"><img src=x onerror="window.ran=1"><script>window.ran=1</script><svg onload="window.ran=1">`;
let real: RealPages;
let one: TestInstallation;
let browser: Browser;
let url: string;

beforeAll(async () => {
  real = await openRealPages();
  ({ one, browser, url } = real);
});
afterAll(() => real?.close());

test('a pile’s name, a note, a name beside it, an outcome, a foreign topic and a photo that is none run nothing', async () => {
  const { app, installation } = one;
  const post = (path: string, payload: object) => app.inject({ method: 'POST', url: path, payload });
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
  const probe = await connectAsync(installation.ingest.url);
  for (const topic of [`piles/yard/${script.replaceAll(/[#+]/g, '')}/reading`, 'piles/yard/p1/reading']) {
    await probe.publishAsync(topic, topic.endsWith('p1/reading') ? script : '{"temperature":30}', { qos: 1 });
  }
  await probe.endAsync();

  const page = await browser.newPage();
  page.setDefaultTimeout(patienceMs);
  // A live stream never leaves the network idle, so what the page asked for is counted without it.
  const underWay = new Set<Request>();
  page.on('request', (request) => {
    if (!request.url().endsWith('/api/live')) underWay.add(request);
  });
  page.on('requestfinished', (request) => underWay.delete(request));
  page.on('requestfailed', (request) => underWay.delete(request));
  const answered = () => until('every answer', () => underWay.size === 0 || undefined);
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
    // What comes of the first answers may be asked for and drawn after them.
    for (let round = 0; round < 3; round += 1) {
      await answered();
      await page.evaluate('new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))');
    }
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
});
