/**
 * Keys for probes before the built server: a key made on the page lets its probe in, revoked it does not; axe clean, no sideways scrolling.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs } from '../helpers/until.ts';

/** A folder to keep pictures in, for whoever wants to look. */
const pictures = process.env.KEYS_PICTURES;

let dataDir: string;
let installation: SpawnedInstallation;
let browser: Browser;

beforeAll(async () => {
  dataDir = await mkdtemp(join(tmpdir(), 'branhearth-pages-'));
  [installation, browser] = await Promise.all([spawnInstallation(dataDir), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await installation?.stop();
  await rm(dataDir, { recursive: true, force: true });
});

async function look(page: Page, name: string): Promise<void> {
  const onLook = async (width: number, colorScheme: string) => {
    if (pictures)
      await page.screenshot({ path: join(pictures, `${name}-${width}-${colorScheme}.png`), fullPage: true });
  };
  const widths = [page.viewportSize()?.width ?? 0];
  expect(await findingsInEveryLook(page, { widths, onLook }), name).toEqual([]);
  await page.emulateMedia({ colorScheme: 'light' });
}

for (const width of [360, 1440]) {
  test(`a key made at ${width} px lets its probe in, and revoked it does not`, async () => {
    const context = await browser.newContext({ viewport: { width, height: 800 } });
    const page = await context.newPage();
    page.setDefaultTimeout(patienceMs);
    await page.goto(`${installation.pagesUrl}/keys`);
    await page.getByLabel('Site', { exact: true }).fill('saltmere-yard');
    await page.getByLabel('Probe', { exact: true }).fill(`p${width}`);
    await look(page, 'form');
    await page.getByRole('button', { name: 'Make the key' }).click();
    await page.getByRole('heading', { name: /is made\. Copy it now/ }).waitFor();
    await page.getByText('The broker answers this machine only.').waitFor();
    await look(page, 'made');
    const told = await page.locator('.made-key pre').first().textContent();
    const value = (name: string) => new RegExp(`^${name}: +(\\S+)$`, 'm').exec(told ?? '')?.[1] ?? '';
    const options = { username: value('User name'), password: value('Password'), reconnectPeriod: 0 };
    const client = await connectAsync(installation.mqttUrl, options);
    await client.publishAsync(value('Publish to'), '{"temperature": 41.5}', { qos: 1 });

    await page.getByRole('button', { name: 'I have copied it' }).click();
    await page.reload();
    const line = page.getByRole('listitem').filter({ hasText: `p${width} at saltmere-yard` });
    await line.getByText('Connected now, from 127.0.0.1.').waitFor();
    expect(await page.content()).not.toContain(options.password);
    const parted = new Promise<void>((resolve) => client.once('close', () => resolve()));
    await line.getByRole('button', { name: /^Revoke/ }).click();
    await look(page, 'list');
    await line.getByRole('button', { name: 'Revoke it' }).click();
    await parted;
    await line.getByText('Revoked just now.').waitFor();

    await expect(connectAsync(installation.mqttUrl, { ...options, clientId: `late-${width}` })).rejects.toThrow();
    await page.goto(`${installation.pagesUrl}/incoming`);
    await page.getByRole('heading', { name: 'Revoked key' }).first().waitFor();
    await look(page, 'incoming');
    await context.close();
  });
}
