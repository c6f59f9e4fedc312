/** Probes that nobody placed yet are offered where one is needed: on a pile without a core, and where a plan is laid. */
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { hasChromium } from '../helpers/browser.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';
import { until } from '../helpers/until.ts';

describe.skipIf(!hasChromium)('three probes that talk', { timeout: 120_000 }, () => {
  let opened: SpawnedPage;
  let device: MqttClient;
  const say = (probe: string, temperature: number) =>
    device.publishAsync(`piles/yard/${probe}/reading`, JSON.stringify({ temperature }), { qos: 1 });
  const piles = async () =>
    pilesAnswerSchema.parse(await (await fetch(`${opened.installation.pagesUrl}/api/piles`)).json()).piles;

  beforeEach(async () => {
    opened = await openSpawnedPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
    device = await connectAsync(opened.installation.mqttUrl);
  });
  afterEach(async () => {
    await device?.endAsync();
    await opened?.close();
  });

  test('are offered on a pile without a core; the one in a hand is marked, and a press puts it there', async () => {
    const { page, installation } = opened;
    await page.goto(`${installation.pagesUrl}/piles/new`);
    await page.getByLabel('Name of the pile').fill('First bed');
    await page.getByRole('button', { name: 'Lay the pile' }).tap();
    await page.getByRole('heading', { level: 1, name: 'First bed' }).waitFor();
    for (const probe of ['one', 'two', 'three']) await say(probe, 18);
    await page.getByRole('heading', { name: '3 probes talk. Which one is in the core?' }).waitFor();
    await say('two', 20.5);
    const rising = page.locator('.talking-one.rising');
    await rising.waitFor();
    await keepPicture(page, 'offered-on-a-pile');
    expect(await rising.count()).toBe(1);
    expect(await rising.textContent()).toContain('two');
    await rising.getByRole('button', { name: 'In the core' }).tap();
    await page.getByRole('heading', { name: 'Which one is in the core?' }).waitFor({ state: 'detached' });
    await say('two', 41.3);
    await until('a sentence of the core', async () => (await piles()).some((pile) => /41/.test(pile.condition)));
    expect(opened.troubles).toEqual([]);
  });

  test('are offered on the last page of a plan, and the one chosen is in the core of the pile laid', async () => {
    const { page, installation } = opened;
    for (const probe of ['one', 'two', 'three']) await say(probe, 18);
    await page.goto(`${installation.pagesUrl}/plan/water`);
    await page.getByLabel('How much of it').fill('12');
    await page.getByRole('link', { name: 'Lay a pile with these figures' }).tap();
    await page.getByRole('group', { name: '3 probes talk. Which one is in the core?' }).waitFor();
    await say('three', 21);
    await page.locator('.talking-one.rising').filter({ hasText: 'three' }).getByRole('radio').tap();
    await keepPicture(page, 'offered-by-a-plan');
    await page.getByLabel('Name of the pile').fill('Planned bed');
    await page.getByRole('button', { name: 'Lay the pile' }).tap();
    await page.getByRole('heading', { level: 1, name: 'Planned bed' }).waitFor();
    await say('three', 41.3);
    await until('a sentence of the core', async () => (await piles()).some((pile) => /41/.test(pile.condition)));
    expect(opened.troubles).toEqual([]);
  });
});
