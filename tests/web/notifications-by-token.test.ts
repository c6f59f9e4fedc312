/**
 * “My notifications” for whoever comes by the token of the environment: it is no person, and the page says what to do instead.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { TestInstallation } from '../helpers/open-test-server.ts';
import { as, join, makeToken } from '../helpers/people.ts';
import { patienceMs } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

const token = 'a-token-of-the-server';
let real: RealPages;
let one: TestInstallation;
let browser: Browser;
let url: string;
let olives: string;

beforeAll(async () => {
  real = await openRealPages({ API_TOKEN: token });
  ({ one, browser, url } = real);
});
afterAll(() => real?.close());

const notifications = (bearer: string) =>
  one.app.inject({ url: '/api/notifications', headers: { authorization: `Bearer ${bearer}` } });

test('while nobody is set up the token speaks for the server; then it is told which token would do', async () => {
  expect((await notifications(token)).json()).toMatchObject({ person: { id: 'server' } });
  olives = await makeToken(one.app, as(await join(one, 'Olive', 'owner')), 'own');
  const refused = await notifications(token);
  expect([refused.statusCode, refused.json<{ detail: string }>().detail]).toEqual([
    409,
    expect.stringMatching(/stands for no person.*token that a person made under "My account", or sign in by name/),
  ]);
  expect((await notifications(olives)).json()).toMatchObject({ person: { name: 'Olive', isOwner: true } });
});

test('the page says so, and still shows what holds for the whole server', async () => {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB' });
  await context.addInitScript((secret) => localStorage.setItem('branhearth.token', secret), token);
  const page = await context.newPage();
  page.setDefaultTimeout(patienceMs);
  await page.goto(`${url}/notifications`);
  await page.getByText('which has no person to notify').waitFor();
  await page.getByRole('heading', { name: 'The server' }).waitFor();
  expect(await page.getByLabel('E-mail address').count()).toBe(0);
  await context.close();
});
