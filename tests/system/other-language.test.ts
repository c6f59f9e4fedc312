/**
 * Somebody who reads no English, at a phone, from an empty folder to an acknowledged warning, and past every page: what stands there
 * is in their language.
 */
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, test } from 'vitest';
import { languages } from '../../shared/messages/made/languages.ts';
import { hasChromium } from '../helpers/browser.ts';
import { englishOn, textsOf } from '../helpers/english-on-page.ts';
import { keepPicture, openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';
import { until } from '../helpers/until.ts';

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
  ...['/help', '/help/probe', '/help/first', '/help/cautions', '/no-such-page'],
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
/** What they type stands in no dictionary. */
const pileName = 'Kamaxo 1';

describe.skipIf(!hasChromium)('no English is read', { timeout: 180_000 }, () => {
  let opened: SpawnedPage | undefined;
  afterEach(() => opened?.close());

  test.each(others)('in %s, from the welcome to an acknowledged warning', async (language) => {
    opened = await openSpawnedPage({ viewport: { width: 390, height: 844 }, hasTouch: true, locale: language });
    const { page, installation } = opened;
    const texts = textsOf(language);
    const say = (code: string) => texts[code] ?? code;
    const read = async (where: string) => {
      await page.locator('h1').waitFor();
      await standsStill(page);
      await keepPicture(page, `${language}${where.replaceAll('/', '-')}`);
      expect.soft(await englishOn(page, language), where).toEqual([]);
    };

    await page.goto(installation.pagesUrl);
    await page.getByRole('radio', { name: say('page-welcome.have.thermometer') }).tap();
    await page.getByLabel(say('page-lay.name'), { exact: true }).fill(pileName);
    const scale = page.getByRole('slider');
    const box = await scale.boundingBox();
    await scale.tap({ position: { x: (box?.width ?? 0) * 0.9, y: (box?.height ?? 0) / 2 } });
    await read('/welcome');
    await page.getByRole('button', { name: say('page-lay.lay') }).tap();
    await page.getByRole('heading', { level: 1, name: pileName }).waitFor();
    const toAcknowledge = page.getByRole('button', { name: new RegExp(`^${say('page-pile.acknowledge')}`) });
    await toAcknowledge.first().waitFor();
    await read('/pile-unacknowledged');
    for (let left = await toAcknowledge.count(); left > 0; left -= 1) {
      await toAcknowledge.first().tap();
      await until('one fewer to acknowledge', async () => ((await toAcknowledge.count()) < left ? true : undefined));
    }
    await read('/pile-acknowledged');
    for (const path of pages) {
      await page.goto(`${installation.pagesUrl}${path}`);
      await read(path);
    }
    expect(opened.troubles).toEqual([]);
  });
});
