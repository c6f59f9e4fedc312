/** The help: every chapter reads well at every width, every page leads to one, and it opens for anybody. */
import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { conditionKinds } from '../../shared/conditions/kinds.ts';
import { plainReader } from '../../shared/messages/format.ts';
import { pageHelpTexts } from '../../shared/messages/made/en/page-help.ts';
import { pageHelpLinkTexts } from '../../shared/messages/made/en/page-help-link.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { renderEnglish } from '../../shared/messages/render.ts';
import { chapterFor, chapterPath, chapters, helpPath } from '../../web/src/features/help/chapters.ts';
import { warningEntries } from '../../web/src/features/help/warning-todos.ts';
import { warningWords } from '../../web/src/ui/format/words.ts';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { hasChromium } from '../helpers/browser.ts';
import { openService, type Service } from './open-pages.ts';

const titleOf = (chapter: (typeof chapters)[number]) => String(pageHelpLinkTexts[`page-help-link.chapter.${chapter}`]);

/** Every address of the pages, as `app.tsx` has them, with something in place of what varies. */
const addresses = [
  ...readFileSync(new URL('../../web/src/app.tsx', import.meta.url), 'utf8').matchAll(/\['(\/[^']*)', \w+Page\]/g),
]
  .map(([, path]) => String(path))
  .map((path) => path.replace('/:kind?', '/drying').replace('/:what?', '/water').replace('/practice/:id?', '/practice'))
  .map((path) => path.replace(':id', 'north-bed'));

test('no text of the help calls anything safe or sanitised, or has a number with a unit typed into it', () => {
  const all = Object.entries(pageHelpTexts).map(([code, text]) => [code, JSON.stringify(text)] as const);
  const promising = /\b(safe|safely|sterile)\b|(?<!not )\bsanitised\b/i;
  expect(all.filter(([, text]) => promising.test(text))).toEqual([]);
  expect(all.filter(([, text]) => /\d\s*(°|cm\b|kg\b|L\b|%|hours?\b|days?\b)/.test(text))).toEqual([]);
});

test('no text of the help is said by nobody', () => {
  const folder = new URL('../../web/src/features/help/', import.meta.url);
  const sources = readdirSync(folder).map((name) => readFileSync(new URL(name, folder), 'utf8'));
  const named = [...sources.join('\n').matchAll(/["'`]((?:page-help\.)?[a-z-]+(?:\.[a-z0-9${}A-Za-z-]+)*)["'`]/g)].map(
    ([, code]) =>
      new RegExp(
        `^(page-help\\.)?${String(code)
          .replace('page-help.', '')
          .replaceAll('.', '\\.')
          .replaceAll(/\$\{[^}]*\}/g, '[a-z-]+')}$`,
      ),
  );
  const isNamed = (code: string) => named.some((pattern) => pattern.test(code));
  // A section that is named says its heading and all of its lines.
  const unsaid = Object.keys(pageHelpTexts).filter((code) => {
    const [, section] = /^page-help\.(.+)\.(?:title|[pln]\d+)$/.exec(code) ?? [];
    return !isNamed(section ?? code);
  });
  expect(unsaid).toEqual([]);
});

describe.skipIf(!hasChromium)('the help', () => {
  let service: Service;
  beforeAll(async () => {
    service = await openService();
  });
  afterAll(() => service.close());

  for (const path of ['/help', ...chapters.map(chapterPath)]) {
    test(`${path}: axe finds nothing and nothing scrolls sideways, light and dark, at 1440 and 390 px`, async () => {
      const { page, complaints, close } = await service.open({ path });
      await page.getByRole('heading', { level: 1 }).waitFor();
      expect(await findingsInEveryLook(page, { widths: [1440, 390] })).toEqual([]);
      // A code that stands there instead of its text.
      expect(await page.locator('main').textContent()).not.toMatch(/\b[a-z-]+\.[a-z-]+(\.[a-z0-9-]+)+\b/);
      expect(complaints).toEqual([]);
      await close();
    });
  }

  test('the “?” of every page says to which chapter it leads, and leads there', async () => {
    expect(addresses.length).toBeGreaterThan(25);
    const { page, close } = await service.open({ path: '/more' });
    const led = new Set<string>();
    for (const address of [...addresses, '/help', '/setup', '/nowhere']) {
      const chapter = chapterFor(address, false);
      await page.evaluate((path) => {
        history.pushState(null, '', path);
        dispatchEvent(new PopStateEvent('popstate'));
      }, address);
      const name = `Help: ${chapter ? titleOf(chapter) : 'all chapters'}`;
      const href = await page.getByRole('link', { name, exact: true }).getAttribute('href');
      expect([address, href]).toEqual([address, helpPath(address, false)]);
      expect([address, href?.replace(/#.*/, '')]).toEqual([address, chapter ? chapterPath(chapter) : '/help']);
      if (chapter) led.add(chapter);
    }
    for (const chapter of led) {
      await page.goto(new URL(`/help/${chapter}`, page.url()).href);
      await page.getByRole('heading', { level: 1, name: titleOf(chapter as (typeof chapters)[number]) }).waitFor();
    }
    await close();
  });

  test('the “?” is reached by keyboard, and takes the focus to the heading of the chapter', async () => {
    const { page, close } = await service.open({ path: '/probes' });
    const link = page.getByRole('link', { name: 'Help: Thermometers and probes' });
    await link.focus();
    await page.keyboard.press('Enter');
    const heading = page.getByRole('heading', { level: 1, name: 'Thermometers and probes' });
    await heading.waitFor();
    await expect.poll(() => heading.evaluate((one) => one === document.activeElement)).toBe(true);
    await close();
  });

  test('every kind of warning has its entry, the gravest first: why it matters, what to do and what not', async () => {
    const { page, close } = await service.open({ path: chapterPath('warnings') });
    await page.getByRole('heading', { level: 1, name: titleOf('warnings') }).waitFor();
    const ids = await page.locator('main section h2').evaluateAll((all) => all.map(({ id }) => id));
    expect(ids).toEqual(['heat', 'kinds', ...conditionKinds]);
    for (const kind of conditionKinds) {
      const entry = page.getByRole('region', { name: warningWords(kind), exact: true });
      expect([kind, await entry.locator('dt').allTextContents()]).toEqual([
        kind,
        ['What it looks for', 'Why it matters', 'What to do', 'What not to do'],
      ]);
      const asked = renderEnglish(warningEntries[kind].todos[0]?.says ?? verbatim('nothing'), plainReader(0));
      expect(await entry.textContent()).toContain(asked);
    }
    await close();
  });

  test('a caution stands before what it is about: nothing of a warning is read before its own', async () => {
    const { page, close } = await service.open({ path: chapterPath('warnings') });
    await page.getByRole('heading', { level: 1, name: titleOf('warnings') }).waitFor();
    const isFirst = await page
      .locator('section:has(.help-caution):has(dl)')
      .evaluateAll((all) => all.map((one) => one.querySelector('h2 + div > :first-child')?.className));
    expect(isFirst.length).toBeGreaterThan(15);
    expect(new Set(isFirst)).toEqual(new Set(['help-caution']));
    await close();
  });

  test('the page that says why leads to the entry of its own warning', async () => {
    const { page, close } = await service.open({ path: '/piles/wall-heap/why/drying' });
    await page.getByRole('link', { name: 'Help: Warnings, one by one' }).click();
    const entry = page.getByRole('heading', { level: 2, name: 'Drying', exact: true });
    await expect.poll(() => entry.evaluate((one) => Math.round(one.getBoundingClientRect().top))).toBeLessThan(60);
    await close();
  });

  test('the key to the signs opens on the page of a pile itself', async () => {
    const { page, close } = await service.open({ path: '/piles/north-bed' });
    await page.getByText('What colours, dots and marks mean').click();
    await page.getByRole('heading', { level: 3, name: 'How grave a warning is' }).waitFor();
    await page.getByText('People or the whole batch are at risk.').waitFor();
    await close();
  });

  test('temperatures are in °F for whoever reads so, in every chapter', async () => {
    const { page, close } = await service.open({
      path: chapterPath('probes'),
      remembered: { 'branhearth.prefs': '{"unit":"F"}' },
    });
    await page.getByText('At 122\u00a0°F and above put no hand into the pile').waitFor();
    for (const chapter of chapters) {
      await page.goto(new URL(chapterPath(chapter), page.url()).href);
      await page.getByRole('heading', { level: 1, name: titleOf(chapter) }).waitFor();
      expect([chapter, (await page.locator('main').textContent())?.match(/.{20}°C/g) ?? []]).toEqual([chapter, []]);
    }
    await close();
  });

  test('whoever is not signed in reads it, and no other page', async () => {
    const { page, close } = await service.open({ path: '/probes', token: 'stone' });
    await page.getByLabel('Token').waitFor();
    await page.goto(new URL('/help/probes', page.url()).href);
    await page.getByRole('heading', { level: 1, name: 'Thermometers and probes' }).waitFor();
    await close();
  });
});
