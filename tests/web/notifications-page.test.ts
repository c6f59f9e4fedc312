/**
 * My notifications, in a real browser before a real server with a real mail server.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../server/app/app.ts';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { type BuiltPages, buildPages, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { type MailServer, startMailServer } from '../helpers/mail-server.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from '../server/notify/farm.ts';

describe.skipIf(!hasChromium)('the page “My notifications”', () => {
  let box: MailServer;
  let farm: NotifyFarm;
  let pages: BuiltPages;
  let browser: Browser;
  let url: string;
  let close: () => Promise<void>;
  beforeAll(async () => {
    [box, pages, browser] = await Promise.all([startMailServer(), buildPages(), launchBrowser()]);
    farm = await openNotifyFarm({ SMTP_URL: box.url, MAIL_FROM: 'alarms@saltmere.example' });
    const app = await buildApp(farm.one.installation, { pagesDir: pages.dir });
    url = await app.listen({ port: 0, host: '127.0.0.1' });
    close = () => app.close();
  });
  afterAll(async () => {
    await browser?.close();
    await close?.();
    await farm?.close();
    await box?.close();
    await pages?.remove();
  });

  async function open(path: string, width = 360) {
    const page = await browser.newPage({ viewport: { width, height: 800 } });
    const complaints: string[] = [];
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(error.message));
    page.setDefaultTimeout(patienceMs);
    await page.goto(url + path);
    return { page, complaints };
  }

  async function isClean(page: Page, name: string) {
    const folder = process.env.BRANHEARTH_PICTURES;
    const onLook = async (width: number, colorScheme: string) => {
      if (folder && (colorScheme === 'light' || width === 360))
        await page.screenshot({ path: `${folder}/${name}-${colorScheme}-${width}.png`, fullPage: true });
    };
    expect(await findingsInEveryLook(page, { widths: [1440, 360], onLook })).toEqual([]);
  }

  test('keeps an e-mail address, has it confirmed by the code that comes there, and its test arrives', async () => {
    const { page, complaints } = await open('/notifications');
    await page.getByText('reach nobody yet').waitFor();
    await page.getByLabel('E-mail address').fill('ada');
    await page.getByRole('button', { name: 'Save changes' }).click();
    await page.getByText('Must be one e-mail address', { exact: false }).first().waitFor();
    await page.getByLabel('E-mail address').fill('ada@saltmere.example');
    await page.getByText('Quiet hours').click();
    await page.getByText('A summary of all piles').click();
    await page.getByRole('button', { name: 'Save changes' }).click();
    await page.getByRole('heading', { name: 'Waiting for confirmation' }).waitFor();
    await page.getByText('Until it is, no warning goes there.').waitFor();
    const mail = await until('the code', () => box.mails[0]);
    expect(mail.parsed.subject).toBe('Branhearth: is this your address?');
    const code = /\b(\d{4} \d{4})\b/.exec(mail.parsed.text ?? '')?.[1] ?? '';
    await page.getByLabel('Code from the e-mail').fill(code === '1234 5678' ? '8765 4321' : '1234 5678');
    await page.getByRole('button', { name: 'Confirm' }).click();
    await page.getByText('This is not the code of the newest e-mail.').waitFor();
    await isClean(page, 'waiting for confirmation');
    await page.getByLabel('Code from the e-mail').fill(code);
    await page.keyboard.press('Enter');
    await page.getByText('Confirmed: warnings go to ada@saltmere.example.').waitFor();
    await page.getByText('go out by e-mail').waitFor();
    await page.getByRole('button', { name: 'Send me a test e-mail' }).click();
    await page.getByText('Sent. Look whether it has arrived.').waitFor();
    expect(box.mails[1]?.parsed.subject).toBe('Branhearth: a test, nothing is wrong');
    expect(complaints.filter((one) => !/4(00|22)/.test(one))).toEqual([]);
    await isClean(page, 'notifications');
    await page.close();
  });

  test('a new address waits while warnings go on to the one before; one of before addresses were confirmed says so', async () => {
    const { page } = await open('/notifications');
    await page.getByLabel('E-mail address').fill('ada@elsewhere.example');
    await page.getByText('Once you save these settings, a code is sent to it').waitFor();
    await page.getByRole('button', { name: 'Save changes' }).click();
    await page.getByText('warnings still go to ada@saltmere.example').waitFor();
    const count = box.mails.length;
    await page.getByRole('button', { name: 'Send a new code' }).click();
    await page.getByText('The mail server has accepted it.').waitFor();
    expect(box.mails.length).toBeGreaterThan(count);
    await page.getByLabel('E-mail address').fill('ada@saltmere.example');
    await page.getByRole('button', { name: 'Save changes' }).click();
    await page.getByText('Confirmed: warnings go to ada@saltmere.example.').waitFor();

    // As a journal of before comes out of its migration.
    const { mailAddresses } = farm.one.installation.journal.notifications;
    const { list } = mailAddresses;
    Object.assign(mailAddresses, {
      list: async () => (await list()).map((one) => ({ ...one, standing: 'before' as const })),
    });
    await page.reload();
    await page.getByText('Warnings go to ada@saltmere.example, as before.').waitFor();
    expect(await page.getByRole('button', { name: 'Send me a test e-mail' }).count()).toBe(0);
    await isClean(page, 'an address of before');
    Object.assign(mailAddresses, { list });
    await page.close();
  });

  test('a warning shows who was told; what did not arrive stands out until somebody has seen it', async () => {
    await farm.prefer({ email: { on: true, address: 'ada@saltmere.example' } });
    box.mood = 'refuse';
    await farm.overheat();
    await until('it to be given up', async () => {
      const answer = await farm.one.app.inject({ url: '/api/notifications/undelivered' });
      return answer.json<{ messages: unknown[] }>().messages.length > 0 ? true : undefined;
    });
    expect((await farm.one.app.inject({ url: '/api/health' })).json()).toMatchObject({
      parts: { delivery: { state: 'degraded' } },
    });
    const { page } = await open('/piles/shed');
    await page.getByText('One message could not be delivered', { exact: false }).waitFor();
    await page.getByText('What happened to this warning').first().click();
    await page.getByText('could not be delivered', { exact: false }).first().waitFor();
    await isClean(page, 'told');
    await page.goto(`${url}/notifications`);
    await page.getByText('A message did not arrive').waitFor();
    await isClean(page, 'undelivered');
    await page.getByRole('button', { name: /I have seen this/ }).click();
    await page.getByText('A message did not arrive').waitFor({ state: 'detached' });
    expect((await farm.one.app.inject({ url: '/api/health' })).json()).toMatchObject({
      parts: { delivery: { state: 'ok' } },
    });
    await page.close();
  });
});
