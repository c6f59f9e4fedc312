/**
 * A grower's first day: an empty server, readings sent with a standard client, the page never loaded anew.
 */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasChromium } from '../helpers/browser.ts';
import type { SpawnedInstallation } from '../helpers/spawn-server.ts';
import { openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';

const publisher = '/usr/bin/mosquitto_pub';
const canRun = hasChromium && existsSync(publisher);

let installation: SpawnedInstallation;
let page: Page;
let pilePath = '';
let opened: SpawnedPage | undefined;
let troubles: readonly string[] = [];

beforeAll(async () => {
  if (!canRun) return;
  opened = await openSpawnedPage({ viewport: { width: 360, height: 740 } });
  ({ installation, page, troubles } = opened);
});
afterAll(() => opened?.close());

/** On a phone it is one of the pages under More. */
async function openProbes() {
  await page.getByRole('link', { name: 'More' }).click();
  await page.getByRole('main').getByRole('link', { name: 'Probes', exact: true }).click();
}

function publish(topic: string, payload: string) {
  const port = new URL(installation.mqttUrl).port;
  execFileSync(publisher, ['-h', '127.0.0.1', '-p', port, '-q', '1', '-t', `piles/${topic}`, '-m', payload]);
}

test.runIf(canRun)('an empty server welcomes, and a probe that talks stands on the page by itself', async () => {
  await page.goto(installation.pagesUrl);
  await page.getByRole('heading', { level: 1, name: /No pile is watched yet/ }).waitFor();
  publish('saltmere-yard/p1/reading', '{"temperature":21.5,"humidity":97,"battery":3.1}');
  await page.getByRole('radio', { name: /^p1 21\.5/ }).waitFor();
});

test.runIf(canRun)('the first pile is laid, the probe claimed for its core, and the pile says how it is', async () => {
  await page.getByLabel('Name of the place').fill('Saltmere Yard');
  await page.getByLabel('Name of the pile').fill('Cart shed');
  await page.getByRole('button', { name: 'Lay the pile' }).click();
  await page
    .getByRole('heading', { name: /Cart shed/ })
    .first()
    .waitFor();
  pilePath = new URL(page.url()).pathname;
  await openProbes();
  await page.getByRole('button', { name: 'Claim it' }).click();
  await page.getByText('Offset, release').first().waitFor();
  await page.getByRole('link', { name: 'Piles' }).click();
  await page
    .getByText(/the core is at 2[12]\s°C/)
    .first()
    .waitFor();
});

const forms: [string, string, string, string][] = [
  ['a JSON object', 'saltmere-yard/p1/reading', '{"temperature":24.3}', '24.3 °C'],
  ['a JSON object in °F', 'saltmere-yard/p1/reading', JSON.stringify({ temperature: 77, unit: 'F' }), '25.0 °C'],
  [
    'SenML',
    'saltmere-yard/p1/reading',
    JSON.stringify([
      { bn: 'p1:', n: 'temperature', u: 'Cel', v: 26.6 },
      { n: 'humidity', u: '%RH', v: 98 },
    ]),
    '26.6 °C',
  ],
  ['a bare number', 'saltmere-yard/p1/temperature', '28.4', '28.4 °C'],
  [
    'a jump that no pile makes within seconds, with a question mark,',
    'saltmere-yard/p1/temperature',
    '48.8',
    '48.8 °C?',
  ],
];
for (const [form, topic, payload, shown] of forms) {
  test.runIf(canRun)(`${form} moves the number beside the mound, without a reload`, async () => {
    publish(topic, payload);
    await page.getByText(shown, { exact: true }).first().waitFor();
  });
}

test.runIf(canRun)('what cannot be read is counted on its page, with the reason', async () => {
  publish('saltmere-yard/p1/reading', '{"temperature":"warm"}');
  await page.getByRole('link', { name: 'More' }).click();
  await page.getByRole('link', { name: 'Messages we could not use' }).click();
  await page.getByText(/1 message could not be used/).waitFor();
});

test.runIf(canRun)(
  'a value of a foreign message is pressed, tried and used for every topic like it, and its probe stands in the list',
  async () => {
    const port = new URL(installation.mqttUrl).port;
    const foreign = () =>
      execFileSync(publisher, ['-p', port, '-q', '1', '-t', 'gw/7/up', '-m', '{"object":{"temp":412}}']);
    foreign();
    await page.getByRole('button', { name: 'Take object › temp 412' }).click();
    await page.getByRole('button', { name: '7', exact: true }).click();
    await page.getByText('temperature of gw-{1} in °C').waitFor();
    await page.getByRole('group').getByText('More').click();
    await page.getByLabel('Multiplied by').fill('0.1');
    await page.getByText(/41\.2/).first().waitFor();
    await page.getByRole('button', { name: 'Use these values' }).click();
    await page.getByText('Its values are used now.').waitFor();
    foreign();
    await openProbes();
    await page.getByText('saltmere-yard/gw-7').waitFor();
  },
);

test.runIf(canRun)('no page complained and none is wider than the phone', async () => {
  for (const path of ['/', pilePath, '/probes', '/incoming', '/settings']) {
    await page.goto(installation.pagesUrl + path);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const [needs, has] = await page.evaluate<[number, number]>(
      '[document.documentElement.scrollWidth, window.innerWidth]',
    );
    expect([path, needs <= has]).toEqual([path, true]);
  }
  expect(troubles).toEqual([]);
});
