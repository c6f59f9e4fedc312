/**
 * Somebody who reads no English, at a phone, from an empty folder to an acknowledged warning, and past every page: what stands there
 * is in their language. One server for all of them: what they see of it lies in the page.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { languages } from '../../shared/messages/made/languages.ts';
import { chapterPath, chapters } from '../../web/src/features/help/chapters.ts';
import { hasChromium } from '../helpers/browser.ts';
import { englishOn, textsOf } from '../helpers/english-on-page.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';
import { patienceMs, until } from '../helpers/until.ts';

const pages = [
  ...[
    '/',
    '/piles/new',
    '/batches',
    '/search',
    '/lots',
    '/lineage',
    '/records',
    '/import',
    '/seasons',
    '/seasons/earlier',
  ],
  ...['/probes', '/incoming', '/keys', '/reach', '/practice', '/plan', '/plan/water', '/plan/heap', '/plan/lay'],
  ...['/weather', '/retention', '/notifications', '/settings', '/more', '/people', '/account', '/who-did-what'],
  ...['/help', ...chapters.map(chapterPath), '/no-such-page'],
];
/** Until a page is whole, as far as it can be seen: its text does not change for as long as an answer takes. */
const standsStill = (page: Page) =>
  page.waitForFunction(
    (quietMs) =>
      new Promise<boolean>((resolve) => {
        const before = document.body.textContent;
        setTimeout(() => resolve(before === document.body.textContent), quietMs);
      }),
    300,
  );
const others = languages.filter((language) => language !== 'en');
const [first = ''] = others;
/** What they type stands in no dictionary. */
const pileName = 'Kamaxo 1';
const phone = { viewport: { width: 390, height: 844 }, hasTouch: true };
/** Pages that are looked through side by side: most of what one takes is to stand still. */
const tabs = 3;

const said = (language: string) => (code: string) => textsOf(language)[code] ?? code;

async function read(page: Page, language: string, where: string): Promise<void> {
  await page.locator('h1').waitFor();
  await standsStill(page);
  await keepPicture(page, `${language}${where.replaceAll('/', '-')}`);
  // A slow machine may still be bringing a catalogue.
  await expect.poll(() => englishOn(page, language), { message: `${language} ${where}` }).toEqual([]);
}

/** Goes on within the pages, as by a link: read anew, each would cost the processor three times as much. */
async function goOn(page: Page, path: string): Promise<void> {
  const before = await page.evaluate(() => document.body.textContent);
  await page.evaluate((to) => {
    const link = document.createElement('a');
    link.href = to;
    document.body.append(link);
    link.click();
    link.remove();
  }, path);
  await page.waitForURL((url) => url.pathname === path);
  await page.waitForFunction((old) => document.body.textContent !== old, before);
}

describe.skipIf(!hasChromium)('no English is read', () => {
  let opened: SpawnedPage;
  let pileUrl = '';
  beforeAll(async () => {
    opened = await openSpawnedPage({ ...phone, locale: first });
    opened.page.setDefaultTimeout(patienceMs);
  });
  afterAll(() => opened?.close());

  async function open(language: string, url: string): Promise<Page> {
    const page = await opened.another({ ...phone, locale: language });
    page.setDefaultTimeout(patienceMs);
    await page.goto(url);
    return page;
  }
  const ways = (page: Page, language: string) =>
    page.getByRole('radio', { name: said(language)('page-welcome.have.thermometer') });

  test.each(others)('in %s, where no pile lies yet', async (language) => {
    const page = await open(language, opened.installation.pagesUrl);
    await ways(page, language).tap();
    await page.getByLabel(said(language)('page-lay.name'), { exact: true }).waitFor();
    await read(page, language, '/welcome');
    await page.context().close();
  });

  test(`a pile is laid too hot, by somebody who reads ${first}`, async () => {
    const { page, installation } = opened;
    const say = said(first);
    await page.goto(installation.pagesUrl);
    await ways(page, first).tap();
    await page.getByLabel(say('page-lay.name'), { exact: true }).fill(pileName);
    const scale = page.getByRole('slider');
    const box = await scale.boundingBox();
    await scale.tap({ position: { x: (box?.width ?? 0) * 0.9, y: (box?.height ?? 0) / 2 } });
    await read(page, first, '/welcome-filled');
    await page.getByRole('button', { name: say('page-lay.lay') }).tap();
    await page.getByRole('heading', { level: 1, name: pileName }).waitFor();
    pileUrl = page.url();
  });

  const toAcknowledge = (page: Page, language: string) =>
    page.getByRole('button', { name: new RegExp(`^${said(language)('page-pile.acknowledge')}`) });

  test.each(others)('in %s, a warning that nobody has acknowledged', async (language) => {
    const page = await open(language, pileUrl);
    await toAcknowledge(page, language).first().waitFor();
    await read(page, language, '/pile-unacknowledged');
    await page.context().close();
  });

  test(`it is acknowledged by somebody who reads ${first}`, async () => {
    const { page } = opened;
    const button = toAcknowledge(page, first);
    await button.first().waitFor();
    for (let left = await button.count(); left > 0; left -= 1) {
      await button.first().tap();
      await until('one fewer to acknowledge', async () => ((await button.count()) < left ? true : undefined));
    }
  });

  test.each(others)('in %s, on every page', async (language) => {
    const left = [pileUrl, ...pages.map((path) => `${opened.installation.pagesUrl}${path}`)];
    const lookThrough = async () => {
      const page = await open(language, left.shift() ?? pileUrl);
      await read(page, language, new URL(page.url()).pathname);
      for (let url = left.shift(); url !== undefined; url = left.shift()) {
        await goOn(page, new URL(url).pathname);
        await read(page, language, new URL(url).pathname);
      }
      await page.context().close();
    };
    await Promise.all(Array.from({ length: tabs }, lookThrough));
    expect(opened.troubles).toEqual([]);
  });
});
