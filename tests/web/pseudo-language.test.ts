/** Every page in a language that is English between brackets and longer: nothing is read that no catalogue has, and nothing is wider than a phone. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chapterPath, chapters } from '../../web/src/features/help/chapters.ts';
import { hasChromium } from '../helpers/browser.ts';
import { pseudoLanguage, pseudoLanguagePlugin } from '../helpers/pseudo-language.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { type OpenPage, openService, type Service } from './open-pages.ts';

/** Those that the stand-in server has answers for. */
const paths = [
  '/',
  '/piles/north-bed',
  '/piles/barn-bed',
  '/piles/wall-heap',
  '/piles/north-bed/why',
  '/piles/north-bed/journal',
  '/piles/new',
  '/batches',
  '/search',
  '/lots',
  '/lineage',
  '/records',
  '/import',
  '/probes',
  '/incoming',
  '/practice',
  '/plan',
  '/plan/water',
  '/plan/starter',
  '/plan/lay',
  '/settings',
  '/more',
  '/account',
  '/help',
  ...chapters.map(chapterPath),
  '/nowhere',
];

/** Names (of languages too, each in its own), units, addresses of probes and forms that are the same in every language, and moments, which Intl writes. */
const isNoWord = (text: string) =>
  /^(Branhearth|English(?: \(Pseudo-Accents\))?|SQLite|cm|kg|lb|mL|kg\/L|US gal|m, cm|ft, in|[\d:]+ [AP]M|\w+ \w+ \d+)$/.test(
    text,
  ) || /^[\w-]+(\/[\w+-]+)+$/.test(text);

/**
 * What people typed, and what the server says in its own words because it has no message for it. A field beside a message of its own name
 * is no data: a page that shows it shows English. Nor is a word alone, which may be a code.
 */
function dataOf(answer: unknown, found: string[] = []): string[] {
  if (typeof answer === 'string') {
    if (!/^[a-z]+$/.test(answer)) found.push(answer);
  } else if (Array.isArray(answer)) for (const one of answer) dataOf(one, found);
  else if (answer !== null && typeof answer === 'object') {
    const messages = 'messages' in answer && answer.messages !== null ? (answer.messages as object) : {};
    for (const [name, value] of Object.entries(answer)) if (!(name in messages)) dataOf(value, found);
  }
  return found;
}

/** Texts outside of brackets, in the order they stand, with what a field or a picture says aloud. */
function unbracketed(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    let depth = 0;
    const isWord = (text: string) => /\p{L}{2}/u.test(text);
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      if (node instanceof Element) {
        for (const name of ['aria-label', 'title', 'alt', 'placeholder', 'aria-valuetext']) {
          const said = node.getAttribute(name);
          if (said && isWord(said) && !said.includes('⟦')) found.push(said);
        }
        continue;
      }
      if (node.parentElement?.closest('script, style, noscript, code, pre, [lang="zxx"]')) continue;
      for (const part of (node.textContent ?? '').split(/([⟦⟧])/)) {
        if (part === '⟦') depth += 1;
        else if (part === '⟧') depth -= 1;
        else if (depth === 0 && isWord(part)) found.push(part.trim());
      }
    }
    return found;
  });
}

/** Texts that stand beyond an edge of the screen, where nobody can scroll to them. */
function outside(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const isCut = (from: Element | null): boolean =>
      from !== null && (/auto|scroll|hidden|clip/.test(getComputedStyle(from).overflowX) || isCut(from.parentElement));
    const found: string[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const parent = node.parentElement;
      if (!parent || !/\S/.test(node.textContent ?? '') || parent.closest('.skip, .unseen, svg')) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const { left, right, width } = range.getBoundingClientRect();
      if (width > 0 && (left < -1 || right > innerWidth + 1) && !isCut(parent)) found.push(node.textContent ?? '');
    }
    return found;
  });
}

describe.skipIf(!hasChromium)('pages in a language that is English between brackets', () => {
  let service: Service;
  let opened: OpenPage;
  const said = new Set<string>();
  let asked = 0;
  beforeAll(async () => {
    service = await openService([pseudoLanguagePlugin()]);
    opened = await service.open({ browser: { viewport: { width: 360, height: 740 }, locale: pseudoLanguage } });
    const { page } = opened;
    page.setDefaultTimeout(patienceMs);
    const isFact = (url: string) => url.includes('/api/') && !url.endsWith('/api/live');
    page.on('request', (request) => {
      if (isFact(request.url())) asked += 1;
    });
    page.on('requestfailed', (request) => {
      if (isFact(request.url())) asked -= 1;
    });
    page.on('requestfinished', async (request) => {
      if (!isFact(request.url())) return;
      const answer = await request
        .response()
        .then((response) => response?.json())
        .catch(() => null);
      for (const text of dataOf(answer)) said.add(text.replaceAll('\u00a0', ' '));
      asked -= 1;
    });
  });
  afterAll(async () => {
    await opened?.close();
    await service?.close();
  });

  const isData = (text: string) => {
    const plain = text.replaceAll('\u00a0', ' ').replace(/,$/, '');
    return isNoWord(plain) || [...said].some((one) => one.includes(plain));
  };

  for (const path of paths)
    test(`${path} says nothing that no catalogue has, and is no wider than the screen, mirrored as well`, async () => {
      const { page, mock } = opened;
      asked = 0;
      await page.goto(mock.url + path);
      await page.locator('html[lang=en-XA] main h1').first().waitFor();
      await until('all answers', () => (asked <= 0 ? true : undefined));
      await page.locator('details').evaluateAll((all) => {
        for (const one of all) (one as HTMLDetailsElement).open = true;
      });
      await until('answers to what was opened', () => (asked <= 0 ? true : undefined));
      await expect.poll(async () => (await unbracketed(page)).filter((text) => !isData(text))).toEqual([]);
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
      // As a language that is written from right to left would have it.
      await page.evaluate(() => document.documentElement.setAttribute('dir', 'rtl'));
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
      expect(await outside(page)).toEqual([]);
    });
});
