/** How much script a first visit loads before its first sentence: what the page names, and what that leads to at once. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { buildPages } from '../helpers/browser.ts';

/** The budget of the first page [bytes, gzip]. */
const most = 75_000;

test('the script of the first page is at most 75 kB gzip', async () => {
  const { dir, remove } = await buildPages();
  const page = await readFile(join(dir, 'index.html'), 'utf8');
  const names = [...new Set(page.match(/\/assets\/[\w-]+\.js/g))];
  const sizes = await Promise.all(names.map(async (name) => gzipSync(await readFile(join(dir, name))).length));
  await remove();
  expect(names.length).toBeGreaterThan(1);
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(most);
});
