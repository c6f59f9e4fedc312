/**
 * An owner sets the place of a site on a phone: the built program asks the weather service, a stand-in that speaks as its
 * documentation says, and the pile's page says with whose air it reckons, how far and since when.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pileDetailSchema } from '../../shared/contracts/piles.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { keepPicture } from '../helpers/spawned-page.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { openWeatherDouble, type WeatherDouble } from '../helpers/weather-double.ts';

let service: WeatherDouble;
let installation: SpawnedInstallation;
let page: Page;
const closing: (() => Promise<unknown>)[] = [];

beforeAll(async () => {
  if (!hasChromium) return;
  service = await openWeatherDouble(Date.now() - 120_000);
  const folder = await makeDataDir();
  installation = await spawnInstallation(folder.dataDir, { environment: { WEATHER_URL: service.url } });
  const browser = await launchBrowser();
  closing.push(
    () => browser.close(),
    () => installation.stop(),
    () => service.close(),
    () => folder.remove(),
  );
  page = await browser.newPage({ viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'UTC' });
  page.setDefaultTimeout(patienceMs);
});
afterAll(async () => {
  for (const close of closing) await close();
});

const send = async (method: 'POST' | 'PUT', path: string, body: object) => {
  const headers = { 'content-type': 'application/json' };
  const answer = await fetch(installation.pagesUrl + path, { method, headers, body: JSON.stringify(body) });
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
};

test.runIf(hasChromium)(
  'a place set on a phone brings the air of tomorrow to the pile’s page, with its source and its age',
  async () => {
    await send('POST', '/api/sites', { name: 'Saltmere Yard' });
    await send('POST', '/api/piles', { site: 'saltmere-yard', id: 'cart-shed', name: 'Cart shed', stage: 'bran' });
    await send('POST', '/api/piles/cart-shed/entries', {
      at: new Date().toISOString(),
      what: { kind: 'measured', position: 'core', temperatureC: 38 },
    });
    await send('PUT', '/api/notifications/server', { allowedAddresses: [service.address], heartbeatUrl: null });

    await page.goto(`${installation.pagesUrl}/more`);
    await page.getByRole('link', { name: 'Tomorrow’s air' }).click();
    await page.getByLabel('Latitude of Saltmere Yard').fill('60,10449');
    await page.getByLabel('Longitude of Saltmere Yard').fill('9.58');
    await page.getByRole('button', { name: 'Save' }).click();
    await page
      .getByText(/Must be given: the service wants to know whom to write to/)
      .first()
      .waitFor();
    await page.getByLabel('Contact').fill('farm@saltmere.example');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText(/^Saltmere Yard: last answer/).waitFor();
    await keepPicture(page, 'weather');
    expect(service.asked.map(({ query }) => query)).toEqual(['lat=60.1&lon=9.58']);

    await until('a band with it', async () => {
      const answer = await fetch(`${installation.pagesUrl}/api/piles/cart-shed`);
      return pileDetailSchema.parse(await answer.json()).airAhead;
    });
    await page.goto(`${installation.pagesUrl}/piles/cart-shed`);
    await page
      .getByText(
        /Reckons with the air foretold for the next (2 days|4\d hours) \(MET Norway\), made \d+ minutes? ago\./,
      )
      .waitFor();
    await page.getByRole('link', { name: 'CC BY 4.0' }).waitFor();
    await keepPicture(page, 'air-ahead');
  },
  120_000,
);
