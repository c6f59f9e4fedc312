/**
 * A phone's page, an empty data folder and a device of which nobody ever heard: from its first message to a judged pile,
 * by presses alone. Taps are counted and printed.
 */
import { connectAsync } from 'mqtt';
import type { Locator } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { probesAnswerSchema } from '../../shared/contracts/probes.ts';
import { hasChromium } from '../helpers/browser.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';
import { until } from '../helpers/until.ts';

const mostTaps = 8;

describe.skipIf(!hasChromium)(
  'an unknown device, from nothing to a judged pile at 390 px',
  { timeout: 120_000 },
  () => {
    let opened: SpawnedPage;
    let taps = 0;
    const tap = async (what: Locator) => {
      taps += 1;
      await what.tap();
    };
    beforeEach(async () => {
      taps = 0;
      opened = await openSpawnedPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
      await opened.page.goto(opened.installation.pagesUrl);
    });
    afterEach(() => opened?.close());

    const ask = async (path: string) => (await fetch(`${opened.installation.pagesUrl}${path}`)).json();

    test.each([
      [
        'an object',
        'greenhouse/bed7/say',
        (tempC: number) => JSON.stringify({ up: 3, core: { temp: tempC }, bat_pct: 87 }),
        /core › temp/,
        'greenhouse-bed7',
      ],
      [
        'a text with its unit',
        'bed7/heat',
        (tempC: number) => `${String(tempC).replace('.', ',')} °C`,
        /whole message/,
        'bed7-heat',
      ],
      [
        'chips that are known by their id',
        'oldboard/a1/data',
        (tempC: number) =>
          JSON.stringify({
            chips: [
              { Id: '28AA', t: 18 },
              { Id: '28FF', t: tempC },
            ],
          }),
        /28FF › t/,
        'oldboard-a1',
      ],
    ] as const)('%s', async (what, topic, payload, value, probe) => {
      const { page, installation } = opened;
      const device = await connectAsync(installation.mqttUrl);
      try {
        await device.publishAsync(topic, payload(38.5), { qos: 1 });
        await tap(page.getByRole('radio', { name: 'A sensor that already sends' }));
        await tap(page.getByRole('link', { name: 'Say which value it is' }));
        // Nothing else came in, so that it stands at the top of its page.
        const first = page.getByRole('heading', { level: 2 }).first();
        await page.getByRole('button', { name: value }).waitFor();
        expect(await first.textContent()).toBe('Topics of other devices');
        await tap(page.getByRole('button', { name: value }));
        await page.getByText('38.5 °C').first().waitFor();
        await page.getByText(`temperature of ${probe} in °C`).waitFor();
        await keepPicture(page, `unknown-device-${probe}`);
        expect(await page.evaluate('document.documentElement.scrollWidth <= window.innerWidth')).toBe(true);
        expect(await page.locator('body').innerText()).not.toMatch(/pointer|filter|wildcard/i);
        await tap(page.getByRole('button', { name: 'Use these values' }));
        await page.getByText('Its values are used now.').waitFor();
        // Nothing more has come: the message that was pressed is its first reading.
        await until('its probe', async () => {
          const { probes } = probesAnswerSchema.parse(await ask('/api/probes'));
          return probes.find((one) => one.probe === probe && one.last.temperatureC === 38.5);
        });
        await tap(page.getByRole('link', { name: 'Go on to the pile' }));
        await tap(page.getByLabel('Name of the pile'));
        await page.keyboard.type('First bed');
        await tap(page.getByRole('radio', { name: probe }));
        await tap(page.getByRole('button', { name: 'Lay the pile' }));
        await page.getByRole('heading', { level: 1, name: 'First bed' }).waitFor();
        await device.publishAsync(topic, payload(41), { qos: 1 });
        const sentence = await until('a sentence of the core', async () => {
          const [pile] = pilesAnswerSchema.parse(await ask('/api/piles')).piles;
          return pile?.positions.core?.temperatureC === 41 && /41/.test(pile.condition) ? pile.condition : undefined;
        });
        console.log(`${what}: ${taps} taps, 1 name typed: “${sentence}”`);
        expect(taps).toBeLessThanOrEqual(mostTaps);
        expect(await ask('/api/ingest/refusals')).toMatchObject({ total: 0 });
        expect(opened.troubles).toEqual([]);
      } finally {
        await device.endAsync();
      }
    });

    test('what is not for me is gone from the page, and counted nowhere', async () => {
      const { page, installation } = opened;
      const device = await connectAsync(installation.mqttUrl);
      try {
        await device.publishAsync('kitchen/kettle', '{"watt":1800}', { qos: 1 });
        await page.goto(`${installation.pagesUrl}/incoming`);
        await tap(page.getByRole('button', { name: 'Not for me: kitchen/kettle' }));
        await page.getByText('kitchen/kettle is not for us.').waitFor();
        await device.publishAsync('kitchen/kettle', '{"watt":1900}', { qos: 1 });
        await page.reload();
        await page.getByText('No message waits for somebody to say what it is.').waitFor();
        expect(await ask('/api/ingest/refusals')).toMatchObject({ total: 0 });
        expect(await ask('/api/ingest/first-message')).toMatchObject({ unused: [] });
      } finally {
        await device.endAsync();
      }
    });
  },
);
