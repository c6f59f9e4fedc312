/**
 * One phone, two people: what Kim wrote out of reach waits for Kim, whoever signs in on the phone meanwhile.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Entry, entriesAnswerSchema } from '../../shared/contracts/journal.ts';
import { axeFindings } from '../helpers/axe.ts';
import type { TestInstallation } from '../helpers/open-test-server.ts';
import { as, join, passwordOf } from '../helpers/people.ts';
import { patienceMs } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

let real: RealPages;
let one: TestInstallation;
let browser: Browser;
let phone: BrowserContext;
let page: Page;
let url: string;
let kim: Record<string, string>;

beforeAll(async () => {
  real = await openRealPages();
  ({ one, browser, url } = real);
  await one.app.inject({ method: 'POST', url: '/api/sites', payload: { name: 'Saltmere Yard' } });
  const pile = { id: 'cart-shed', site: 'saltmere-yard', name: 'Cart shed', stage: 'bran' };
  await one.app.inject({ method: 'POST', url: '/api/piles', payload: pile });
  await join(one, 'Olive', 'owner');
  kim = as(await join(one, 'Kim', 'keeper'));
  phone = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB', timezoneId: 'UTC' });
  page = await phone.newPage();
  page.setDefaultTimeout(patienceMs);
});
afterAll(() => real?.close());

async function comeIn(name: string): Promise<void> {
  await page.goto(`${url}/piles/cart-shed/journal`);
  await page.getByLabel('User name').fill(name);
  await page.getByLabel('Password', { exact: true }).fill(passwordOf(name));
  await page.keyboard.press('Enter');
  await page.getByText('live', { exact: true }).waitFor();
}

async function leave(): Promise<void> {
  await page.goto(`${url}/account`);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
}

async function writeOutOfReach(note: string): Promise<void> {
  await page.getByRole('button', { name: 'Note', exact: true }).waitFor();
  await phone.setOffline(true);
  await page.getByRole('button', { name: 'Note', exact: true }).click();
  await page.getByRole('textbox', { name: 'Note' }).fill(note);
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('1 entry waits on this device.').waitFor();
}

async function written(): Promise<Entry[]> {
  const answer = await one.app.inject({ url: '/api/piles/cart-shed/entries', headers: kim });
  return entriesAnswerSchema.parse(answer.json()).entries;
}

async function look(name: string): Promise<void> {
  expect([name, await axeFindings(page)]).toEqual([name, []]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth > innerWidth)).toBe(false);
  const { SCREENS } = process.env;
  if (SCREENS) await page.screenshot({ path: `${SCREENS}/outbox-${name}.png`, fullPage: true });
}

test('what Kim wrote out of reach waits while Olive is signed in, and goes out under Kim’s name once she is back', async () => {
  await comeIn('Kim');
  await writeOutOfReach('Smells like bread.');
  // Her session ends while she is away; somebody else takes up the phone.
  await one.app.inject({ method: 'DELETE', url: '/api/session', headers: { ...kim, cookie: await cookiesOfPhone() } });
  await phone.setOffline(false);
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  await page.getByText('1 entry by Kim waits on this device until Kim signs in here.').waitFor();

  await comeIn('Olive');
  await page.getByText('1 entry by Kim waits on this device until Kim signs in here.').waitFor();
  await page.getByText('Written here by Kim; sent once Kim signs in on this device.').waitFor();
  await look('of-another');
  await page.reload();
  await page.getByText('1 entry by Kim waits').waitFor();
  expect(await written()).toEqual([]);
  await leave();

  await comeIn('Kim');
  await page.getByText(/waits? on this device/).waitFor({ state: 'detached' });
  expect((await written()).map(({ note, by }) => [note, by])).toEqual([['Smells like bread.', 'Kim']]);
});

test('somebody else may send it in their own name', async () => {
  await writeOutOfReach('Turned it by hand.');
  await phone.clearCookies();
  await phone.setOffline(false);
  await comeIn('Olive');
  await page.getByRole('button', { name: 'Send it in my name' }).click();
  await page.getByText(/waits? on this device/).waitFor({ state: 'detached' });
  expect((await written()).map(({ note, by }) => [note, by])).toContainEqual(['Turned it by hand.', 'Olive']);
});

test('the server itself keeps nothing under a wrong name', async () => {
  const entry = { id: 'an-entry-of-olives', at: new Date().toISOString(), what: { kind: 'note' }, note: 'Mine.' };
  const hand = (writer: string) =>
    one.app.inject({
      method: 'POST',
      url: '/api/entries',
      headers: kim,
      payload: { entries: [{ pileId: 'cart-shed', entry }], writer },
    });
  const me = (await one.app.inject({ url: '/api/session', headers: kim })).json<{ person: { id: string } }>().person.id;
  const refused = await hand('somebody-else');
  expect([refused.statusCode, refused.json<{ detail: string }>().detail]).toEqual([
    403,
    expect.stringMatching(/Somebody else wrote these entries/),
  ]);
  expect((await written()).some(({ id }) => id === entry.id)).toBe(false);
  expect((await hand(me)).json()).toMatchObject({ outcomes: [{ outcome: 'kept' }] });
});

async function cookiesOfPhone(): Promise<string> {
  return (await phone.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ');
}
