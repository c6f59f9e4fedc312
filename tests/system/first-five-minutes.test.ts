/**
 * A phone's page and an empty data folder: each of the four ways of the welcome leads from nothing to a pile with a
 * sentence. Taps are counted and printed; nothing is typed but the pile's name.
 */
import { connectAsync } from 'mqtt';
import type { Locator } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { hasChromium } from '../helpers/browser.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';
import { until } from '../helpers/until.ts';

const mostTaps = 8;

describe.skipIf(!hasChromium)('from nothing to a judged pile at 390 px', () => {
  let opened: SpawnedPage;
  let taps = 0;
  const tap = async (what: Locator, position?: { x: number; y: number }) => {
    taps += 1;
    await what.tap(position ? { position } : {});
  };
  const choose = (way: string) => tap(opened.page.getByRole('radio', { name: way }));
  const name = async () => {
    await tap(opened.page.getByLabel('Name of the pile'));
    await opened.page.keyboard.type('First bed');
  };
  const lay = async () => {
    await tap(opened.page.getByRole('button', { name: 'Lay the pile' }));
    await opened.page.getByRole('heading', { level: 1, name: 'First bed' }).waitFor();
  };
  const judged = (degrees: string) =>
    until('a sentence of the core', async () => {
      const answer = await fetch(`${opened.installation.pagesUrl}/api/piles`);
      const [pile] = pilesAnswerSchema.parse(await answer.json()).piles;
      return pile?.condition.includes(degrees) ? pile.condition : undefined;
    });
  const say = (way: string, sentence: string) => {
    console.log(`${way}: ${taps} taps: “${sentence}”`);
    expect(taps).toBeLessThanOrEqual(mostTaps);
    expect(opened.troubles).toEqual([]);
  };

  beforeEach(async () => {
    taps = 0;
    opened = await openSpawnedPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await opened.page.goto(opened.installation.pagesUrl);
    await opened.page.getByRole('heading', { level: 1, name: /No pile is watched yet/ }).waitFor();
  });
  afterEach(() => opened?.close());

  test('a thermometer', async () => {
    await choose('A thermometer');
    await name();
    const scale = opened.page.getByRole('slider', { name: 'It shows' });
    expect(await scale.getAttribute('aria-valuetext')).toMatch(/^Not said yet/);
    const box = await scale.boundingBox();
    await tap(scale, { x: (box?.width ?? 0) * 0.5, y: (box?.height ?? 0) / 2 });
    await tap(opened.page.getByRole('button', { name: 'One degree more' }));
    await keepPicture(opened.page, 'first-thermometer');
    const shown = Number(await scale.inputValue());
    expect(shown).toBeGreaterThan(40);
    expect(shown).toBeLessThan(52);
    await lay();
    say('a thermometer', await judged(String(shown)));
  });

  test('a sensor that already sends', async () => {
    const { page, installation } = opened;
    await choose('A sensor that already sends');
    const { port } = new URL(installation.mqttUrl);
    await page.getByText(port, { exact: true }).waitFor();
    await page.getByText('The broker answers this machine only').waitFor();
    await page.getByText('Nothing has reached the broker yet').waitFor();
    await tap(page.getByRole('button', { name: 'Make a key for it' }));
    await page.getByRole('img', { name: /QR code/ }).waitFor();
    const sheet = (await page.locator('.made-key pre').first().textContent()) ?? '';
    const field = (label: string) => new RegExp(`${label}: +(\\S+)`).exec(sheet)?.[1] ?? '';
    await keepPicture(page, 'first-sensor-key');

    // Another page is looked at before it is written down: it is still there, and after a reload it is said what to do.
    await page.getByRole('link', { name: 'Let probes and a phone in' }).first().click();
    await page.getByRole('heading', { level: 1, name: 'Let probes and a phone in' }).waitFor();
    await page.goBack();
    const sensor = page.getByRole('radio', { name: 'A sensor that already sends' });
    await sensor.check();
    await page.getByRole('img', { name: /QR code/ }).waitFor();
    expect(await page.locator('.made-key pre').first().textContent()).toBe(sheet);
    await page.reload();
    await sensor.check();
    await page.getByText(/nothing has come in with it since the server started/).waitFor();
    await keepPicture(page, 'first-sensor-key-lost');

    // A wrong password first, then a topic that nobody can read; each is named on the page.
    const username = field('User name');
    await expect(
      connectAsync(installation.mqttUrl, { username, password: 'slip', reconnectPeriod: 0 }),
    ).rejects.toThrow();
    await page.getByText('Wrong password').waitFor();
    const device = await connectAsync(installation.mqttUrl, { username, password: field('Password') });
    try {
      await device.publishAsync('piles/my-yard/p1/reading', '{"temperature":"warm"}', { qos: 1 });
      await page.getByText('could not be used').waitFor();
      await page.getByText('{"temperature":"warm"}').waitFor();
      await device.publishAsync('piles/my-yard/p1/reading', '{"temperature":41.5}', { qos: 1 });
      await page.getByText(/The first message came at/).waitFor();
      const offer = page.getByRole('radio', { name: /p1/ });
      await offer.waitFor();
      await keepPicture(page, 'first-sensor-came');
      await name();
      await tap(offer);
      await lay();
      // What was measured before the pile was laid is not of its batch.
      await device.publishAsync('piles/my-yard/p1/reading', '{"temperature":41}', { qos: 1 });
      say('a sensor that already sends', await judged('41'));
    } finally {
      await device.endAsync();
    }
  });

  test('parts to build one', async () => {
    const { page, installation } = opened;
    await choose('Parts to build one');
    expect(await page.getByRole('link', { name: 'How to build a probe' }).getAttribute('href')).toBe('/help/probe');
    const board = await connectAsync(installation.mqttUrl);
    try {
      await board.publishAsync('compost-node/sensor/core_temperature/state', '38.2', { qos: 1 });
      const offer = page.getByRole('radio', { name: /compost-node/ });
      await offer.waitFor();
      await name();
      await tap(offer);
      await lay();
      await board.publishAsync('compost-node/sensor/core_temperature/state', '38', { qos: 1 });
      say('parts to build one', await judged('38'));
    } finally {
      await board.endAsync();
    }
  });

  test('nothing yet', async () => {
    const { page } = opened;
    await choose('Nothing yet: show me');
    await keepPicture(page, 'first-nothing');
    await tap(page.getByRole('link', { name: 'Practise on a simulated pile' }));
    await tap(page.locator('.practice-entries a').first());
    await tap(page.getByRole('button', { name: 'Go to the pile' }).first());
    const sentence = page
      .locator('.sentence')
      .filter({ hasText: /\d+\.?\d*\s°C/ })
      .first();
    await sentence.waitFor();
    say('nothing yet', (await sentence.textContent()) ?? '');
  });

  test('the page that lets probes and a phone in says what to think of and what to run', async () => {
    const { page, installation } = opened;
    await choose('A sensor that already sends');
    await tap(page.getByRole('link', { name: 'Let probes and a phone in' }));
    await page.getByRole('heading', { level: 1, name: 'Let probes and a phone in' }).waitFor();
    await page.getByText('the pages answer this machine only').waitFor();
    await page.getByText('Nobody is the owner yet').waitFor();
    await page
      .getByText(
        'BRANHEARTH_MQTT_HOST=0.0.0.0 BRANHEARTH_HOST=0.0.0.0 BRANHEARTH_PLAIN_HTTP=on-a-trusted-network npm start',
      )
      .waitFor();
    await tap(page.getByRole('radio', { name: 'Probes only' }));
    await page.getByText('BRANHEARTH_MQTT_HOST=0.0.0.0 npm start').waitFor();
    await keepPicture(page, 'reach');
    expect(await page.evaluate('document.documentElement.scrollWidth <= window.innerWidth')).toBe(true);
    expect(installation.output()).not.toContain('error');
  });
});
