/** The built pages before a whole server, and a browser to open them in, for the tests beside this file. */
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { buildPages, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

export interface RealPages {
  readonly one: TestInstallation;
  readonly browser: Browser;
  readonly url: string;
  close(): Promise<void>;
}

/** @param environment Settings of the server, without their prefix. */
export async function openRealPages(
  environment: Record<string, string> = {},
  { takesPush = false } = {},
): Promise<RealPages> {
  const { dataDir, remove } = await makeDataDir();
  const [pages, browser] = await Promise.all([buildPages(), launchBrowser({ takesPush })]);
  const one = await openTestInstallation(dataDir, environment, undefined, { pagesDir: pages.dir });
  await one.app.listen({ host: '127.0.0.1', port: 0 });
  return {
    one,
    browser,
    url: `http://127.0.0.1:${(one.app.server.address() as AddressInfo).port}`,
    async close() {
      await browser.close();
      await one.close();
      await pages.remove();
      await remove();
    },
  };
}
