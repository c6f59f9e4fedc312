/**
 * What a grower finds with hand, nose and eyes, written down in the pages of the built program: with a probe in the pile, and without.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasChromium } from '../helpers/browser.ts';
import type { SpawnedInstallation } from '../helpers/spawn-server.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';

let installation: SpawnedInstallation;
let page: Page;
let opened: SpawnedPage | undefined;
let troubles: readonly string[] = [];

const laidMs = Date.now() - 48 * 3_600_000;

async function send(path: string, body: object): Promise<void> {
  const answer = await fetch(installation.pagesUrl + path, {
    method: 'POST',
    body: JSON.stringify(body),
    headers: { 'content-type': 'application/json' },
  });
  if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
}

beforeAll(async () => {
  if (!hasChromium) return;
  opened = await openSpawnedPage({ viewport: { width: 390, height: 844 } });
  ({ installation, page, troubles } = opened);
  const startedAt = new Date(laidMs).toISOString();
  const recipe = { material: 'wheat-bran', depthM: 0.3, cover: 'breathable', moistureFrac: 0.6, massKg: 100 };
  await send('/api/sites', { name: 'Saltmere Yard', timeZone: 'Europe/Lisbon' });
  const site = 'saltmere-yard';
  for (const [id, name] of Object.entries({ 'with-a-probe': 'With a probe', 'without-one': 'Without one' }))
    await send('/api/piles', { id, site, name, stage: 'bran', startedAt, recipe });
  const rows: object[] = [];
  for (let min = 0; min <= 48 * 60; min += 10) {
    const temperature = Math.round(10 * (Math.min(41, 22 + min / 90) + (min % 30) / 100)) / 10;
    rows.push({ time: laidMs + min * 60_000, temperature });
  }
  const { connectAsync } = await import('mqtt');
  const client = await connectAsync(installation.mqttUrl);
  for (const row of rows) await client.publishAsync(`piles/${site}/p1/reading`, JSON.stringify(row), { qos: 1 });
  await client.endAsync();
  await send(`/api/probes/${site}/p1/claim`, { pileId: 'with-a-probe', position: 'core', from: startedAt });
});
afterAll(() => opened?.close());

async function write(kind: string, choices: readonly string[]): Promise<void> {
  await page.getByRole('button', { name: kind, exact: true }).click();
  const form = page.getByRole('form', { name: new RegExp(`^${kind}`) });
  for (const more of await form.locator('summary').all()) await more.click();
  for (const choice of choices) await form.getByLabel(choice, { exact: true }).first().check();
  await form.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText(`${kind}: written down.`).waitFor();
}

const picture = (name: string) => keepPicture(page, name);

const sentence = () => page.locator('.sentence-large');

describe.runIf(hasChromium)('what a grower notes by hand', () => {
  for (const id of ['with-a-probe', 'without-one']) {
    test(`is said at once by the pile ${id.replaceAll('-', ' ')}, each sign in its turn`, {
      timeout: 60_000,
    }, async () => {
      await page.goto(`${installation.pagesUrl}/piles/${id}`);
      await write('Squeeze test', ['Crumbles when the hand opens: too dry']);
      await sentence()
        .getByText(/^A squeeze (just now|1 minute ago) says it is too dry/)
        .waitFor();
      await page.getByRole('heading', { level: 3, name: 'Too dry by hand' }).waitFor();
      await picture(`${id}-dry`);
      await write('Smell', ['Rotten', 'Ammonia']);
      await sentence()
        .getByText(/^It smells rotten and of ammonia, noted (just now|\d minutes? ago)/)
        .waitFor();
      await picture(`${id}-foul`);
      await write('Growth', ['Black', 'All through', 'Many']);
      await page.getByRole('heading', { level: 3, name: 'Wrong growth' }).waitFor();
      await page
        .getByText('Its smell was found bad, its look bad.')
        .or(page.getByText('Its smell and look were found bad.'))
        .waitFor();
      await picture(`${id}-all`);
    });
  }

  test('counts both piles among those that need somebody, on the home page', async () => {
    await page.goto(installation.pagesUrl);
    await page.getByRole('heading', { level: 1, name: /Both piles need you now/ }).waitFor();
    await picture('home');
  });

  test('ends with what is noted later, and asks to squeeze again after watering', async () => {
    await page.goto(`${installation.pagesUrl}/piles/without-one`);
    await write('Watered', []);
    await page.getByRole('heading', { level: 3, name: 'Too dry by hand' }).waitFor({ state: 'detached' });
    await page.goto(`${installation.pagesUrl}/piles/without-one`);
    await picture('without-one-after');
    await page.goto(`${installation.pagesUrl}/piles/without-one/why/hand-dry`);
    await page.getByRole('heading', { level: 1, name: 'Too dry by hand' }).waitFor();
    await picture('why');
  });

  test('no page complained', () => expect(troubles).toEqual([]));
});
