/**
 * While nobody can be notified every page says so, to each person with the way that is theirs; it goes with the first channel set up and
 * comes back with the last one switched off, on pages that stand open too.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasChromium } from '../helpers/browser.ts';
import { settlePeople, type TestPeople } from '../helpers/people.ts';
import { patienceMs } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

const said = 'Nobody is notified of warnings';

describe.skipIf(!hasChromium)('that nobody is notified', () => {
  let real: RealPages;
  let browser: Browser;
  let people: TestPeople;
  beforeAll(async () => {
    real = await openRealPages();
    browser = real.browser;
    people = await settlePeople(real.one);
  });
  afterAll(() => real?.close());

  async function open(who: keyof TestPeople, path: string, width = 1440): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height: 844 }, locale: 'en-GB' });
    const pairs = (people[who].cookie ?? '').split('; ').map((pair) => pair.split('='));
    await context.addCookies(pairs.map(([name = '', value = '']) => ({ name, value, url: real.url })));
    const page = await context.newPage();
    page.setDefaultTimeout(patienceMs);
    await page.goto(real.url + path);
    await page.getByText('live', { exact: true }).waitFor();
    return page;
  }

  for (const path of [
    '/',
    '/probes',
    '/plan',
    '/batches',
    '/seasons',
    '/practice',
    '/more',
    '/settings',
    '/no-such-page',
  ]) {
    test(`is said on ${path} beside what the settings say, and covers nothing of a phone’s page`, async () => {
      const page = await open('owner', path, 390);
      const line = page.getByText(said);
      await line.waitFor();
      const [lineBox, mainBox] = [await line.locator('..').boundingBox(), await page.locator('main').boundingBox()];
      expect(mainBox?.y).toBeGreaterThanOrEqual((lineBox?.y ?? 0) + (lineBox?.height ?? 0));
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      await page.emulateMedia({ media: 'print' });
      expect(await line.isVisible()).toBe(false);
      await page.context().close();
    });
  }

  test('leads an owner to where it is changed, and tells a keeper and a viewer whom to ask', async () => {
    const page = await open('owner', '/');
    await page.getByRole('link', { name: 'Set up e-mail, push or another service' }).click();
    await page.getByText('Set up one of the channels below').waitFor();
    await page.context().close();
    for (const who of ['keeper', 'viewer'] as const) {
      const theirs = await open(who, '/probes');
      await theirs.getByText('Ask an owner to set up notifications').waitFor();
      await theirs.getByRole('link', { name: 'set up your own' }).click();
      await theirs.getByLabel('Webhook address').waitFor();
      await theirs.context().close();
    }
  });

  test('goes with the first channel that is set up, also where another page stands open, and comes back with the last', async () => {
    const [other, mine] = [await open('viewer', '/probes'), await open('owner', '/notifications')];
    await other.getByText(said).waitFor();
    const keep = async (address: string) => {
      await mine.getByLabel('Webhook address').fill(address);
      await mine.getByRole('button', { name: 'Save changes' }).click();
      await mine.getByRole('button', { name: 'Saved' }).waitFor();
    };
    await keep('https://farm.example/hook');
    await mine.getByText(said).waitFor({ state: 'detached' });
    await other.getByText(said).waitFor({ state: 'detached' });
    await keep('');
    await mine.getByText(said).waitFor();
    await other.context().close();
    await mine.context().close();
  });
});
