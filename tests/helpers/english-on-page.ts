/** English that stands on a page which somebody reads in another language. */
import { readdirSync, readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

const folder = 'shared/messages';

const known = new Map<string, Readonly<Record<string, string>>>();

/** Every text of a language as its catalogues hold it, by code. */
export function textsOf(language: string): Readonly<Record<string, string>> {
  const texts = known.get(language) ?? readTexts(language);
  known.set(language, texts);
  return texts;
}

function readTexts(language: string): Readonly<Record<string, string>> {
  const files = readdirSync(`${folder}/${language}`).filter((name) => /^(?!standing|compared).*\.json$/.test(name));
  return Object.assign({}, ...files.map((name) => JSON.parse(readFileSync(`${folder}/${language}/${name}`, 'utf8'))));
}

/** Words without which no English sentence goes, and which no other language that is offered has. */
const particle =
  /(?<!\p{L})(?:the|and|of|with|your|is|are|was|it|this|that|from|not|here|when|what|how|been|will)(?!\p{L})/iu;

/** Titles of sources, and who published them, stand in their own language. */
const sources = /[“«「『][^”»」』]*[”»」』]|\p{Lu}\p{L}+ (?:of|and) \p{Lu}\p{L}+/gu;

/** Of a page: what is shown, what stands in empty fields, and what screen readers say. Commands and what was sent stand as they are. */
function shownOn(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const isCode = (one: Element | null | undefined) => one?.closest('pre, code, samp, [lang="zxx"]') != null;
    const found: string[] = [document.title];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode())
      if (!isCode(node.parentElement) && node.parentElement?.closest('script, style, template, noscript') == null)
        found.push(node.textContent ?? '');
    for (const name of ['aria-label', 'placeholder', 'title', 'alt', 'aria-valuetext'])
      for (const one of document.querySelectorAll(`[${name}]`))
        if (!isCode(one)) found.push(one.getAttribute(name) ?? '');
    return found.map((text) => text.replaceAll(/\s+/g, ' ').trim()).filter((text) => text.length > 1);
  });
}

/** @returns What is English: a text of its catalogues that says something else in this language, or a sentence with its particles. */
export async function englishOn(page: Page, language: string): Promise<string[]> {
  const [english, other] = [textsOf('en'), textsOf(language)];
  const both = new Set(Object.values(other));
  const texts = new Set(
    Object.entries(english)
      .filter(([code, text]) => !text.includes('{') && !both.has(text) && text !== other[code])
      .map(([, text]) => text.replaceAll(/<[^>]*>/g, '')),
  );
  return [
    ...new Set((await shownOn(page)).filter((text) => texts.has(text) || particle.test(text.replaceAll(sources, '')))),
  ];
}
