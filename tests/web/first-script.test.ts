/** How much script a first visit loads before its first sentence, in each language: what begins the page, and what that loads at once. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createContext, runInContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { languages } from '../../shared/messages/made/languages.ts';

/** The budget of the first page [bytes, gzip]. */
const most = 75_000;

/** As they are shipped: pages built within tests hold what helps whoever develops. */
const dir = fileURLToPath(new URL('../../.build/web', import.meta.url));

/** @returns Addresses of the scripts that the page begins with, for a browser that asks for this language. */
async function firstScripts(language: string): Promise<string[]> {
  const document = await readFile(join(dir, 'index.html'), 'utf8');
  const named = [...document.matchAll(/<script[^>]* src="([^"]+)"|<link rel="modulepreload"[^>]* href="([^"]+)"/g)];
  expect(named.map(([, script]) => script)).toEqual(['/begin.js']);
  const added: { href?: string; src?: string }[] = [];
  const page = {
    navigator: { languages: [language] },
    document: {
      documentElement: { dataset: {}, lang: 'en' },
      head: { append: (one: object) => added.push(one) },
      createElement: () => ({}),
      addEventListener: (_event: string, act: () => void) => act(),
    },
  };
  runInContext(await readFile(join(dir, 'begin.js'), 'utf8'), createContext(page));
  expect(page.document.documentElement.lang).toBe(language);
  return [...new Set(['/begin.js', ...added.map(({ href, src }) => href ?? src ?? '')])];
}

test.each(languages)(
  'the first page has one script beside what picks its language, both at most 75 kB gzip in %s',
  async (language) => {
    const scripts = await firstScripts(language);
    expect(scripts.filter((one) => one.startsWith(`/assets/${language}-`))).toHaveLength(scripts.length - 1);
    const sizes = await Promise.all(scripts.map(async (name) => gzipSync(await readFile(join(dir, name))).length));
    expect(sizes).toHaveLength(2);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(most);
  },
);

test('a page in one language holds no text of another', async () => {
  const codeOf = async (language: string) =>
    (await Promise.all((await firstScripts(language)).map((name) => readFile(join(dir, name), 'utf8')))).join('\n');
  const textOf = async (language: string) =>
    JSON.parse(await readFile(`shared/messages/${language}/page-shell.json`, 'utf8'))['page-shell.skip'] as string;
  for (const language of languages) {
    const code = await codeOf(language);
    for (const other of languages)
      expect([language, other, code.includes(await textOf(other))]).toEqual([language, other, language === other]);
  }
});
