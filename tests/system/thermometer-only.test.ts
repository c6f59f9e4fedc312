/** A grower who has nothing but a thermometer, in the pages of the built program on a phone: from an empty start to a judged pile. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasChromium } from '../helpers/browser.ts';
import type { SpawnedInstallation } from '../helpers/spawn-server.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';

let installation: SpawnedInstallation;
let page: Page;
let pileUrl = '';
let opened: SpawnedPage | undefined;
let troubles: readonly string[] = [];

beforeAll(async () => {
  if (!hasChromium) return;
  opened = await openSpawnedPage({ viewport: { width: 390, height: 844 } });
  ({ installation, page, troubles } = opened);
});
afterAll(() => opened?.close());

const picture = (name: string) => keepPicture(page, name);

async function measure(temperature: string): Promise<void> {
  await page.getByRole('link', { name: 'Write down a temperature' }).click();
  const form = page.getByRole('form', { name: /^Measured/ });
  await form.getByLabel(/^Temperature/).fill(temperature);
  await picture(`form-${temperature}`);
  await form.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('Measured: written down.').waitFor();
  await page.goto(pileUrl);
}

test.runIf(hasChromium)('whoever has only a thermometer goes from an empty start to a judged pile', async () => {
  await page.goto(installation.pagesUrl);
  await page.getByRole('radio', { name: 'A thermometer' }).check();
  await page.getByLabel('Name of the place').fill('Saltmere Yard');
  await page.getByLabel('Name of the pile').fill('Cart shed');
  await page.getByRole('button', { name: 'Lay the pile' }).click();
  await page
    .getByRole('heading', { name: /Cart shed/ })
    .first()
    .waitFor();
  pileUrl = page.url();
  await page.getByText('Nobody has measured the core yet: measure it with a long-stem thermometer.').waitFor();
  await picture('asked');

  await measure('22,5');
  await page
    .getByText(/the core was at 2[23]\s°C/)
    .first()
    .waitFor();
  await page.getByText(/Measure the core again by .*twice a day is enough while it is quiet\./).waitFor();
  await page
    .getByText(/measured by hand/)
    .first()
    .waitFor();
  expect(await page.locator('.position-lines').textContent()).not.toMatch(/silent|probe/);
  await picture('judged');

  await measure('54');
  await page
    .getByText(/It is too hot: the core was at 54\s°C/)
    .first()
    .waitFor();
  await page
    .getByText(/it is over the 50(\.0)?\s°C at which to act/)
    .first()
    .waitFor();
  await picture('too-hot');
  expect(troubles).toEqual([]);
});
