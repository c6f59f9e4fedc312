/**
 * An owner looks at what the readings take up, chooses an age, sees them reduced, and finds the comparison as it was.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { type BuiltPages, buildPages, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { openPastInstallation, type PastInstallation } from '../helpers/past-server.ts';
import { patienceMs } from '../helpers/until.ts';

let installation: PastInstallation;
let built: BuiltPages;
let folder: Awaited<ReturnType<typeof makeDataDir>>;
let browser: Browser;
let page: Page;
let url: string;

beforeAll(async () => {
  if (!hasChromium) return;
  folder = await makeDataDir();
  built = await buildPages();
  installation = await openPastInstallation(folder.dataDir, built.dir);
  url = await installation.app.listen({ host: '127.0.0.1', port: 0 });
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: 360, height: 740 }, locale: 'en-GB', timezoneId: 'UTC' });
  page.setDefaultTimeout(patienceMs);
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await installation.close();
  await built.remove();
  await folder.remove();
});

const expectNothingToReport = async () =>
  expect(await findingsInEveryLook(page, { widths: [1440, 360], height: 740 })).toEqual([]);

test.runIf(hasChromium)(
  'an age is chosen, readings are reduced, the room is given back, and the comparison is what it was',
  async () => {
    const measures = async () => {
      await page.goto(`${url}/seasons?stage=bran`);
      const table = page.locator('.measures-part table');
      await table.waitFor();
      return table.textContent();
    };
    const before = await measures();

    await page.goto(`${url}/retention`);
    await page.getByText(/readings are kept as they came, .* on disk with all averages/).waitFor();
    await page.getByRole('radio', { name: /^A year/ }).waitFor();
    await expectNothingToReport();
    await page.getByText('Another number of days').click();
    await page.getByLabel('Days', { exact: true }).fill('300');
    await page
      .getByText(/readings are older, about [\d.]+\sMB/)
      .last()
      .waitFor();
    await page.getByRole('button', { name: 'Reduce readings older than 300 days' }).click();
    await page.getByText(/^Last reduced on 10 Jun 2031: [\d,]+ readings from before/).waitFor();
    await page.getByText(/, which freed [\d.]+\sMB/).waitFor();
    await expectNothingToReport();

    expect(await measures()).toBe(before);
  },
  120_000,
);
