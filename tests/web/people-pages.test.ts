/**
 * People come in, through the built pages before a whole server: set up, invited, signed out and back, and what each is offered.
 * On the way every page goes before axe at 360 and 1440 px, light and dark.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findingsInEveryLook } from '../helpers/axe.ts';
import type { TestInstallation } from '../helpers/open-test-server.ts';
import { patienceMs } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

let real: RealPages;
let one: TestInstallation;
let browser: Browser;
let url: string;
const complaints: string[] = [];

beforeAll(async () => {
  real = await openRealPages();
  ({ one, browser, url } = real);
});
afterAll(() => real?.close());

async function device(): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    locale: 'en-GB',
    timezoneId: 'UTC',
  });
  const page = await context.newPage();
  page.setDefaultTimeout(patienceMs);
  // What the server refuses is news to the console, and expected here; anything else is not.
  page.on('console', (message) => {
    if (message.type() === 'error' && !/status of 4(01|10|22|29)/.test(message.text())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { context, page };
}

async function look(page: Page, name: string): Promise<void> {
  const folder = process.env.BRANHEARTH_PICTURES;
  const onLook = async (width: number, colorScheme: string) => {
    if (folder && colorScheme === 'dark')
      await page.screenshot({ path: `${folder}/${name.replace(/\W+/g, '-')}-${width}.png`, fullPage: true });
  };
  expect([name, await findingsInEveryLook(page, { widths: [1440, 360], onLook })]).toEqual([name, []]);
  await page.setViewportSize({ width: 1440, height: 900 });
}

const password = 'kettle willow copper lantern';

test('from the link of the start to a server with an owner, a keeper and a viewer', async () => {
  const owner = await device();
  const { page } = owner;

  // The link of the start: its secret leaves the address at once, and a weak password is told before it is sent.
  await page.goto(url + (await one.installation.people.links.setup()));
  await page.getByRole('heading', { name: 'Become the first owner.' }).waitFor();
  expect(new URL(page.url()).hash).toBe('');
  await page.getByLabel('Choose a user name').fill('Olive');
  await page.getByLabel('Password', { exact: true }).fill('Password1234!');
  await page.getByRole('button', { name: 'Create my account' }).click();
  await page.getByText('The password is too easy to guess').waitFor();
  await look(page, 'setup');
  await page.getByLabel('Password', { exact: true }).fill(password);
  await page.getByRole('button', { name: 'Create my account' }).click();
  await page.waitForURL(`${url}/`);
  await page.getByText('live', { exact: true }).waitFor();

  // An invitation, taken on another device.
  await page.getByRole('link', { name: 'More' }).click();
  await page.getByRole('link', { name: 'People', exact: true }).click();
  await page.getByRole('heading', { name: 'One person has access.' }).waitFor();
  const invite = async (role: string) => {
    await page.getByRole('radio', { name: role }).check();
    await page.getByRole('button', { name: 'Make the link' }).click();
    const address = (await page.locator('.made-once pre').textContent()) ?? '';
    if (role === 'Viewer') await look(page, 'people, a link just made');
    await page.getByRole('button', { name: 'I have copied it' }).click();
    return address;
  };
  const keeper = await device();
  await keeper.page.goto(await invite('Keeper'));
  await keeper.page.getByText('Olive invites you as keeper').waitFor();
  await look(keeper.page, 'invitation');
  await keeper.page.getByLabel('Choose a user name').fill('Kim');
  await keeper.page.getByLabel('Password', { exact: true }).fill(password);
  await keeper.page.getByRole('button', { name: 'Create my account' }).click();
  await keeper.page.getByText('live', { exact: true }).waitFor();

  const viewer = await device();
  const viewersLink = await invite('Viewer');
  await viewer.page.goto(viewersLink);
  await viewer.page.getByLabel('Choose a user name').fill('Vera');
  await viewer.page.getByLabel('Password', { exact: true }).fill(password);
  await viewer.page.getByRole('button', { name: 'Create my account' }).click();
  await viewer.page.getByText('live', { exact: true }).waitFor();
  await viewer.page.goto(viewersLink);
  await viewer.page.getByText('This link was used already').waitFor();
  await look(viewer.page, 'a spent link');

  // What is not for a viewer is not offered, and a link that leads there says why.
  await viewer.page.goto(`${url}/more`);
  await viewer.page.getByRole('main').getByRole('link', { name: 'Practice' }).waitFor();
  expect(await viewer.page.getByRole('link', { name: 'People', exact: true }).count()).toBe(0);
  await viewer.page.goto(`${url}/people`);
  await viewer.page.getByRole('heading', { name: 'This page is for owners.' }).waitFor();
  await look(viewer.page, 'not for you');

  // The owner sees all three, and what was done.
  await page.reload();
  await page.getByRole('heading', { name: '3 people have access.' }).waitFor();
  await look(page, 'people');
  await page.getByRole('link', { name: 'audit log' }).click();
  await page.getByText('became the first owner').waitFor();
  await page.getByLabel('What was done, or to what').fill('joined');
  await page.getByRole('button', { name: 'Find' }).click();
  await page.getByText('joined by a link').first().waitFor();
  await page.getByText('became the first owner').waitFor({ state: 'detached' });
  await page.locator('summary').first().click();
  await look(page, 'who did what');

  // A keeper's own page: a token shown once, and the sessions.
  await keeper.page.goto(`${url}/account`);
  await keeper.page.getByRole('heading', { name: 'You are Kim.' }).waitFor();
  await keeper.page.getByLabel('What is it for?').fill('Weather script');
  await keeper.page.getByLabel('Your password').fill('not it, not it at all');
  await keeper.page.getByRole('button', { name: 'Make the token' }).click();
  await keeper.page.getByText('The password is not right.').first().waitFor();
  await look(keeper.page, 'a token, with the wrong password');
  await keeper.page.getByLabel('Your password').fill(password);
  await keeper.page.getByRole('button', { name: 'Make the token' }).click();
  expect(await keeper.page.locator('.made-once pre').textContent()).toMatch(/^branhearth_/);
  await look(keeper.page, 'account');
  await keeper.page.getByRole('button', { name: 'I have copied it' }).click();
  await keeper.page.getByText('never used').waitFor();

  // The live page of somebody whose sessions an owner ends asks who is there, and leads back to where they were.
  await keeper.page.goto(`${url}/probes`);
  await keeper.page.getByText('live', { exact: true }).waitFor();
  await page.goto(`${url}/people`);
  await page.getByText('Sign-ins, tokens and devices of Kim').click();
  await page.getByRole('heading', { name: 'Token: Weather script' }).waitFor();
  await look(page, 'what Kim holds');
  await page.getByRole('button', { name: 'End Token: Weather script' }).click();
  await page.getByRole('button', { name: 'End it' }).click();
  await page.getByRole('heading', { name: 'Token: Weather script' }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Phone lost or stolen: end all that Kim has' }).click();
  await look(page, 'before all is ended');
  await page.getByRole('button', { name: 'End all', exact: true }).click();
  await page.getByText('Not signed in anywhere, and nothing is sent to any device.').waitFor();
  await keeper.page.getByRole('heading', { name: 'Sign in' }).waitFor();
  await look(keeper.page, 'sign in');
  await keeper.page.getByLabel('User name').fill('kim');
  await keeper.page.getByLabel('Password', { exact: true }).fill('not the password at all');
  await keeper.page.getByRole('button', { name: 'Sign in' }).click();
  await keeper.page.getByText('Name or password is not right.').waitFor();
  await keeper.page.getByLabel('Password', { exact: true }).fill(password);
  await keeper.page.keyboard.press('Enter');
  await keeper.page.getByText('live', { exact: true }).waitFor();
  expect(new URL(keeper.page.url()).pathname).toBe('/probes');

  // A new password, and out by one's own hand; what others keep of the person is told to forget.
  await keeper.page.goto(`${url}/account`);
  await keeper.page.getByLabel('Current password').fill(password);
  await keeper.page.getByLabel('New password').fill('thistles under a leaning barn');
  await keeper.page.getByRole('button', { name: 'Change the password' }).click();
  await keeper.page.getByText('Changed.').waitFor();
  await keeper.page.evaluate(() => {
    addEventListener('branhearth:signed-out', () => sessionStorage.setItem('told', 'yes'));
  });
  await keeper.page.getByRole('button', { name: 'Sign out' }).click();
  await keeper.page.getByRole('heading', { name: 'Sign in' }).waitFor();
  expect(await keeper.page.evaluate(() => sessionStorage.getItem('told'))).toBe('yes');
  expect(complaints).toEqual([]);
});

test('signing out while the server is out of reach counts here at once, and is said at the next contact', async () => {
  const { page } = await device();
  await page.goto(url);
  await page.getByLabel('User name').fill('Olive');
  await page.getByLabel('Password', { exact: true }).fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByText('live', { exact: true }).waitFor();
  const mine = async () => {
    const id = (await one.installation.journal.people.byNameKey('olive'))?.id;
    return one.installation.journal.sessions.list(id);
  };
  const before = (await mine()).length;
  await page.goto(`${url}/account`);
  await page.getByRole('heading', { name: 'You are Olive.' }).waitFor();
  const asked: string[] = [];
  let away = true;
  await page.route('**/api/**', (route) => {
    if (away) return route.abort();
    asked.push(`${route.request().method()} ${new URL(route.request().url()).pathname}`);
    return route.continue();
  });
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByText('You are signed out on this device.').waitFor();
  await look(page, 'signed out, out of reach');
  // Opened anew it still shows nothing of anybody.
  await page.goto(url);
  await page.getByText('You are signed out on this device.').waitFor();
  expect(await mine()).toHaveLength(before);
  away = false;
  await page.getByText('You are signed out on this device.').waitFor({ state: 'detached' });
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  expect(asked[0]).toBe('DELETE /api/session');
  expect(await mine()).toHaveLength(before - 1);
});
