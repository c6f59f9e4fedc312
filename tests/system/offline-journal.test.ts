/**
 * Out of reach of the server: a hundred entries wait on the phone, outlast its page, and arrive once each over a line that breaks.
 */

import type { Browser, BrowserContext } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Entry, entriesAnswerSchema } from '../../shared/contracts/journal.ts';
import { type BreakingLine, openBreakingLine } from '../helpers/breaking-line.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs } from '../helpers/until.ts';

const entryCount = 100;

let installation: SpawnedInstallation;
let line: BreakingLine;
let browser: Browser;
let phone: BrowserContext;
let remove: () => Promise<void>;

beforeAll(async () => {
  if (!hasChromium) return;
  const folder = await makeDataDir();
  remove = folder.remove;
  installation = await spawnInstallation(folder.dataDir);
  line = await openBreakingLine(installation.pagesUrl);
  browser = await launchBrowser();
  phone = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB', timezoneId: 'UTC' });
  const post = (path: string, body: object) =>
    fetch(installation.pagesUrl + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  await post('/api/sites', { name: 'Saltmere Yard', id: 'saltmere-yard' });
  await post('/api/piles', { site: 'saltmere-yard', id: 'cart-shed', name: 'Cart shed', stage: 'bran' });
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await line.close();
  await installation.stop();
  await remove();
});

async function entriesInInstallation(): Promise<Entry[]> {
  const all: Entry[] = [];
  let after = '';
  for (;;) {
    const answer = await fetch(`${installation.pagesUrl}/api/piles/cart-shed/entries?limit=40${after}`);
    const { entries, next } = entriesAnswerSchema.parse(await answer.json());
    all.push(...entries);
    if (next === null) return all;
    after = `&after=${encodeURIComponent(next)}`;
  }
}

/**
 * Taps "Watered", writes the litres and taps "Write it down", as a thumb would, from 1 L to `count` L. As text, because it
 * runs in the page, whose names the compiler does not know here.
 */
const tapEntries = (count: number) => `(async () => {
  const tick = () => new Promise((resolve) => setTimeout(resolve, 5));
  const find = async (look) => {
    for (let tries = 0; tries < 2000; tries++) {
      const found = look();
      if (found) return found;
      await tick();
    }
    throw new Error('the page did not get there');
  };
  const button = (words) =>
    [...document.querySelectorAll('button')].find((one) => one.textContent === words && !one.disabled);
  for (let litres = 1; litres <= ${count}; litres++) {
    (await find(() => button('Watered'))).click();
    const field = await find(() => document.querySelector('.entry-form input[inputmode="decimal"]'));
    field.value = String(litres);
    field.dispatchEvent(new Event('input', { bubbles: true }));
    await tick();
    (await find(() => button('Write it down'))).click();
    await find(() => !document.querySelector('.entry-form'));
  }
})()`;

test.runIf(hasChromium)(
  'a hundred entries written out of reach arrive once each, after three broken connections',
  async () => {
    const page = await phone.newPage();
    page.setDefaultTimeout(patienceMs);
    await page.goto(`${line.url}/piles/cart-shed/journal`);
    await page.getByRole('button', { name: 'Watered' }).waitFor();

    line.setDown(true);
    const fromMs = Date.now();
    await page.evaluate(tapEntries(entryCount - 1));
    // The last one carries a photo.
    await page.getByRole('button', { name: 'Photo', exact: true }).click();
    const buffer = await sharp({ create: { width: 40, height: 30, channels: 3, background: '#77402a' } })
      .jpeg()
      .toBuffer();
    await page.getByLabel('Photo from files').setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer });
    await page.getByRole('img', { name: 'Photo 1 of this entry' }).waitFor();
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText(`${entryCount} entries wait on this device.`).waitFor();
    const toMs = Date.now();
    expect(await entriesInInstallation()).toEqual([]);

    // The page goes; what waits stays.
    await page.close();
    line.breaks.push('before', 'answer-lost', 'answer-cut');
    line.setDown(false);
    const again = await phone.newPage();
    again.setDefaultTimeout(patienceMs);
    await again.goto(`${line.url}/piles/cart-shed/journal`);
    for (const left of [2, 1, 0]) {
      await expect.poll(() => line.breaks.length).toBeLessThanOrEqual(left);
      const send = again.getByRole('button', { name: 'Send now' });
      await send.click();
    }
    await again.getByText(/wait on this device/).waitFor({ state: 'detached' });

    expect(line.breaks).toEqual([]);
    const entries = await entriesInInstallation();
    expect(entries).toHaveLength(entryCount);
    expect(new Set(entries.map((entry) => entry.id)).size).toBe(entryCount);
    const litres = entries.flatMap(({ what }) => (what.kind === 'watered' ? [what.amountL] : []));
    expect(litres.sort((one, other) => (one ?? 0) - (other ?? 0))).toEqual(
      Array.from({ length: entryCount - 1 }, (_, index) => index + 1),
    );
    // Each with its own time, when it was written, not when it was sent.
    const times = entries.map((entry) => Date.parse(entry.at));
    expect(Math.min(...times)).toBeGreaterThanOrEqual(fromMs - 2_000);
    expect(Math.max(...times)).toBeLessThanOrEqual(toMs + 2_000);
    expect(new Set(times).size).toBeGreaterThan(entryCount / 2);

    const [photoId = ''] = entries.flatMap((entry) => entry.photoIds);
    const photo = await fetch(`${installation.pagesUrl}/api/photos/${photoId}`);
    expect([photo.status, photo.headers.get('content-type')]).toEqual([200, 'image/jpeg']);
    await again.getByText('Watered, 99 L', { exact: true }).waitFor();
    await again.close();
  },
);

test.runIf(hasChromium)(
  'what the server refuses stays on the phone with the reason, until it is thrown away',
  async () => {
    const page = await phone.newPage();
    page.setDefaultTimeout(patienceMs);
    await page.goto(`${line.url}/piles/cart-shed/journal`);
    await page.getByRole('button', { name: 'Note', exact: true }).waitFor();
    line.setDown(true);
    await page.getByRole('button', { name: 'Note', exact: true }).click();
    await page.getByRole('textbox', { name: 'Note' }).fill('Written for a time that has not come.');
    await page.getByText('Another time, more to say').click();
    await page.getByLabel('When').fill('2099-01-01T08:00');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText('1 entry waits on this device.').waitFor();
    line.setDown(false);
    // The page tries again by itself once the line is back; whoever is quicker, the server says no.
    const sendNow = page.getByRole('button', { name: 'Send now' });
    await sendNow.click({ timeout: 2_000 }).catch(() => undefined);
    await page.getByText(/^The server did not take it/).waitFor();
    await page.getByRole('button', { name: 'Throw it away' }).click();
    await page.getByText('Written for a time that has not come.').waitFor({ state: 'detached' });
    expect((await entriesInInstallation()).some((entry) => entry.note?.includes('has not come'))).toBe(false);
    await page.close();
  },
);
