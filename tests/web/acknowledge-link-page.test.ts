/**
 * The page that a link in a message opens, in a real browser: at 360 and 1440 px, light and dark, in each of its states.
 */
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { makeLink } from '../../server/notify/notification-links.ts';
import type { KeptNotice } from '../../shared/store/notifications-store.ts';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { patienceMs } from '../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from '../server/notify/farm.ts';

let farm: NotifyFarm;
let browser: Browser;
let url: string;
let notice: KeptNotice;
const complaints: string[] = [];

beforeAll(async () => {
  [farm, browser] = await Promise.all([openNotifyFarm({}), launchBrowser()]);
  await farm.one.app.listen({ host: '127.0.0.1', port: 0 });
  url = `http://127.0.0.1:${(farm.one.app.server.address() as AddressInfo).port}`;
  const alarm = await farm.overheat();
  const [first] = await farm.one.installation.journal.notifications.notices.ofAlarm(alarm.id);
  if (!first) throw new Error('nothing was to be told of the alarm');
  notice = first;
});
afterAll(async () => {
  await browser?.close();
  await farm?.close();
});

async function link(): Promise<string> {
  const message = { personId: 'server', personName: 'Ada', channel: 'email' } as Parameters<typeof makeLink>[2];
  return `${url}/acknowledge/${await makeLink(farm.one.installation.journal.notifications, notice, message, farm.nowMs)}`;
}

async function look(page: Page, state: string): Promise<void> {
  const { SCREENS } = process.env;
  const onLook = async (width: number, colorScheme: string) => {
    if (SCREENS) await page.screenshot({ path: `${SCREENS}/told-${state}-${width}-${colorScheme}.png` });
  };
  const found = await findingsInEveryLook(page, { widths: [360, 1440], height: 740, onLook });
  expect([state, found]).toEqual([state, []]);
}

test('a link in a message opens what was told, acknowledges by one press, and says so to whoever comes later', async () => {
  const page = await browser.newPage();
  page.setDefaultTimeout(patienceMs);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  const first = await link();
  const second = await link();

  await page.goto(first);
  await page.getByRole('heading', { level: 1, name: 'Have you seen this?' }).waitFor();
  await page.getByText('Shed at Saltmere Yard is too hot.').waitFor();
  // Whoever goes to it from here is told what can hurt.
  await page.getByText('Caution', { exact: true }).waitFor();
  await look(page, 'ready');
  const button = page.getByRole('button');
  const box = await button.boundingBox();
  expect(box?.height).toBeGreaterThanOrEqual(44);
  await button.click();
  await page.getByText('Acknowledged by Ada').waitFor();
  await look(page, 'done');

  const saying = async (address: string, heading: string) => {
    await page.goto(address);
    await page.getByRole('heading', { level: 1, name: heading }).waitFor();
    expect(await page.getByRole('button').count()).toBe(0);
    return (await page.locator('main').textContent()) ?? '';
  };
  expect(await saying(first, 'Acknowledged before')).toMatch(/Acknowledged by Ada with this link, \d\d:\d\d\./);
  await look(page, 'used');
  expect(await saying(second, 'Acknowledged before')).toContain('Ada has acknowledged it already.');
  await look(page, 'nothing-left');
  await saying(`${url}/acknowledge/not-a-secret`, 'This link is not known');
  await saying(second.replace('/acknowledge/', '/told/'), 'Acknowledged before'); // as messages of earlier versions have it
  expect(page.url()).toBe(second); // whoever opens one goes on to the address of today
  await look(page, 'unknown');
  farm.nowMs += 4 * 86_400_000;
  // What was to be done days ago is told as it was then, not as to be done now.
  const old = await saying(second, 'This link is too old');
  expect([old.includes('Do it by'), old.includes('Do it now')]).toEqual([true, false]);
  await look(page, 'too-old');
  expect(complaints.filter((text) => !/status of 4(04|10)/.test(text))).toEqual([]);
});
