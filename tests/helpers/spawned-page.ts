/** A page of a phone on a server of its own, as it starts on an empty folder. */
import { mkdirSync } from 'node:fs';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { launchBrowser } from './browser.ts';
import { makeDataDir } from './open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from './spawn-server.ts';

export interface SpawnedPage {
  readonly installation: SpawnedInstallation;
  readonly page: Page;
  /** What the page complained of. */
  readonly troubles: readonly string[];
  /** Another page of the same server, on a device of its own. */
  another(context: BrowserContextOptions): Promise<Page>;
  close(): Promise<void>;
}

export async function openSpawnedPage(context: BrowserContextOptions): Promise<SpawnedPage> {
  const { dataDir, remove } = await makeDataDir();
  const installation = await spawnInstallation(dataDir);
  const browser = await launchBrowser();
  const troubles: string[] = [];
  const another = async (of: BrowserContextOptions) => {
    const page = await browser.newPage({ locale: 'en-GB', ...of });
    page.on('pageerror', (error) => troubles.push(error.message));
    page.on('console', (message) => message.type() === 'error' && troubles.push(message.text()));
    return page;
  };
  const page = await another(context);
  return {
    ...{ installation, page, troubles, another },
    async close() {
      await browser.close();
      await installation.stop();
      await remove();
    },
  };
}

/** Where to keep pictures of the pages, for whoever wants to look at them. */
const picturesIn = process.env.KEEP_PICTURES;

/** Keeps the page at phone and desktop width, where somebody wants pictures; afterwards it is a phone's again. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  if (!picturesIn) return;
  mkdirSync(picturesIn, { recursive: true });
  for (const [width, height] of [
    [390, 1500],
    [1440, 1100],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.evaluate('window.scrollTo(0, 0)');
    await page.screenshot({ path: `${picturesIn}/${name}-${width}.png` });
  }
  await page.setViewportSize({ width: 390, height: 844 });
}
