/**
 * The server is replaced by a newer one while a page is open: the page goes on whole, says so, and takes the newer one up.
 */
import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastifyInstance } from 'fastify';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildApp } from '../../server/app/app.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { freePort } from '../helpers/free-port.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { patienceMs } from '../helpers/until.ts';

/** As `npm start` serves them: pages built for tests keep no copy of themselves. */
const olderDir = fileURLToPath(new URL('../../.build/web', import.meta.url));

let one: TestInstallation;
let app: FastifyInstance;
let folder: Awaited<ReturnType<typeof makeDataDir>>;
let newerDir: string;
let browser: Browser;
let page: Page;
let port: number;

const serve = async (pagesDir: string) => {
  app = await buildApp(one.installation, { pagesDir });
  await app.listen({ host: '127.0.0.1', port });
};

beforeAll(async () => {
  if (!hasChromium) return;
  folder = await makeDataDir();
  one = await openTestInstallation(folder.dataDir);
  newerDir = join(folder.dataDir, 'newer');
  await cp(olderDir, newerDir, { recursive: true });
  // A newer build: another document, and so another digest of all files in the worker.
  const document = join(newerDir, 'index.html');
  await writeFile(document, (await readFile(document, 'utf8')).replace('<body>', '<body data-build="newer">'));
  const worker = join(newerDir, 'sw.js');
  const script = await readFile(worker, 'utf8');
  expect(script.match(/[0-9a-f]{16}/g)).toHaveLength(1);
  await writeFile(worker, script.replace(/[0-9a-f]{16}/, '0123456789abcdef'));
  port = await freePort();
  await serve(olderDir);
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: 360, height: 740 }, locale: 'en-GB' });
  page.setDefaultTimeout(patienceMs);
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await app.close();
  await one.close();
  await folder.remove();
});

const build = () => page.evaluate('document.body.dataset.build ?? "older"');
const keptBuilds = () => page.evaluate(`caches.keys().then((names) => names.length)`);

test.runIf(hasChromium)(
  'a page that was open is told of newer pages, takes them up, and keeps them for out of reach',
  async () => {
    await page.goto(`http://127.0.0.1:${port}/`);
    await page.getByText(/^live/).waitFor();
    await expect.poll(() => page.evaluate('navigator.serviceWorker.controller !== null')).toBe(true);
    expect([await build(), await keptBuilds()]).toEqual(['older', 1]);

    await app.close();
    await serve(newerDir);
    // The page comes back by itself, and looks for newer pages as it does.
    await page.getByText('A newer version of these pages is available.').waitFor();
    expect(await build()).toBe('older');
    // A part of the older build that was not loaded yet comes from the device.
    await page.getByRole('link', { name: 'Plan' }).click();
    await page.getByRole('heading', { level: 1 }).first().waitFor();

    await page.getByRole('button', { name: 'Update' }).click();
    await expect.poll(build).toBe('newer');
    await page.getByText('A newer version of these pages is available.').waitFor({ state: 'detached' });

    await app.close();
    await page.reload();
    expect(await build()).toBe('newer');
    await serve(newerDir);
  },
);
