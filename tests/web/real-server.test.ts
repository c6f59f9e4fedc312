/**
 * The built pages before the built server: what a probe publishes stands on the page, without a reload.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs } from '../helpers/until.ts';

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

test('from an empty start to a watched pile: each payload form shows on the page, nothing is refused by the policy', async () => {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  const complaints: string[] = [];
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  page.setDefaultTimeout(patienceMs);
  await page.goto(installation.pagesUrl);

  await page.getByRole('radio', { name: 'A sensor that already sends' }).check();
  await page.getByLabel('Name of the place').fill('Saltmere Yard');
  await page.getByLabel('Name of the pile').fill('First bed');
  await page.getByLabel('Depth').fill('30');
  await page.getByRole('button', { name: 'Lay the pile' }).click();
  await page.getByRole('heading', { level: 1, name: 'First bed' }).waitFor();

  const probe = await connectAsync(installation.mqttUrl);
  const publish = (topic: string, payload: string) =>
    probe.publishAsync(`piles/saltmere-yard/${topic}`, payload, { qos: 1 });
  await publish('p1/reading', '{"temperature": 24.5, "humidity": 98}');
  await page.getByRole('link', { name: 'Claim one for this pile' }).click();
  await page.getByRole('button', { name: 'Claim it' }).click();
  await page.getByText('24.5 °C, humidity 98 %'.replaceAll(/ (?=[°%])/g, '\u00a0')).waitFor();

  await page.getByRole('link', { name: 'First bed' }).click();
  await page.getByRole('img', { name: /core 24\.5/ }).waitFor();
  await publish('p1/reading', '[{"bn":"p1/","n":"temperature","u":"Cel","v":25.5}]');
  await page.getByRole('img', { name: /core 25\.5/ }).waitFor();
  await publish('p1/temperature', '26.5');
  await page.getByRole('img', { name: /core 26\.5/ }).waitFor();

  await publish('p1/reading', '{"temperature": 85}');
  await page.getByRole('link', { name: 'More' }).click();
  await page.getByRole('link', { name: 'Messages we could not use' }).click();
  await page.getByText('Power-on value').first().waitFor();

  expect(complaints).toEqual([]);
  await probe.endAsync();
  await page.close();
});
