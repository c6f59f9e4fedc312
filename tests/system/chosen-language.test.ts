/** Somebody chooses another language on a device that keeps the pages: they come in it, and stay in it out of reach. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasChromium } from '../helpers/browser.ts';
import { textsOf } from '../helpers/english-on-page.ts';
import { openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';

let opened: SpawnedPage;
beforeAll(async () => {
  if (hasChromium) opened = await openSpawnedPage({ viewport: { width: 390, height: 844 } });
});
afterAll(() => opened?.close());

const say = (language: string, code: string) => textsOf(language)[code] ?? code;

test.runIf(hasChromium)(
  'over plain http, where a browser keeps no pages, a chosen language is read at once and after a reload',
  async () => {
    const page = await opened.another({ viewport: { width: 390, height: 844 } });
    await page.addInitScript('delete Navigator.prototype.serviceWorker');
    await page.goto(opened.installation.pagesUrl);
    await page.locator('html[lang=en] h1').waitFor();
    expect(await page.evaluate("'serviceWorker' in navigator")).toBe(false);
    await page.getByLabel(say('en', 'page-language.label')).selectOption('ko');
    await page.locator('html[lang=ko] h1').waitFor();
    await page.getByText(say('ko', 'page-shell.foot')).waitFor();
    await page.goto(`${opened.installation.pagesUrl}/plan`);
    await page.locator('html[lang=ko] h1').waitFor();
    expect(await page.getByText(say('ko', 'page-shell.foot')).count()).toBe(1);
    await page.context().close();
  },
);

test.runIf(hasChromium)('a language chosen at the foot is read at once, on every page, and out of reach', async () => {
  const { page, installation } = opened;
  await page.goto(installation.pagesUrl);
  await page.locator('html[lang=en] h1').waitFor();
  await expect.poll(() => page.evaluate('navigator.serviceWorker.controller !== null')).toBe(true);

  await page.getByLabel(say('en', 'page-language.label')).selectOption('es');
  await page.locator('html[lang=es] h1').waitFor();
  await page.getByRole('link', { name: say('es', 'page-shell.nav.plan'), exact: true }).click();
  await page.getByText(say('es', 'page-shell.foot')).waitFor();
  const kept = await page.evaluate(async () => {
    const name = (await caches.keys()).find((one) => one.endsWith('-es')) ?? '';
    return (await (await caches.open(name)).keys()).map(({ url }) => url);
  });
  const languages = new Set(kept.flatMap((url) => /\/assets\/([\w-]+)-[0-9a-f]{8}\//.exec(url)?.[1] ?? []));
  expect([...languages]).toEqual(['es']);

  await installation.stop();
  await page.goto(`${installation.pagesUrl}/help/cautions`);
  await page.locator('html[lang=es] h1').waitFor();
  expect(await page.getByText(say('es', 'page-shell.foot')).count()).toBe(1);
});
