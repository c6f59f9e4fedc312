/** The pages in a real browser before a stand-in server, for the tests beside this file. */
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import type { Plugin } from 'vite';
import { type BuiltPages, buildPages, launchBrowser } from '../helpers/browser.ts';
import { type MockApi, startMockApi } from '../helpers/mock-api.ts';
import { type MockFarm, mockFarm } from '../helpers/mock-farm.ts';
import { patienceMs } from '../helpers/until.ts';

/** Tests stand at one moment; the farm's clock then runs like any other. */
export const farmNowMs = Date.parse('2031-06-11T10:00:00Z');

export interface Service {
  open(options?: OpenOptions): Promise<OpenPage>;
  close(): Promise<void>;
}

export interface OpenOptions {
  readonly path?: string;
  readonly farm?: (farm: MockFarm) => void;
  readonly token?: string;
  readonly speed?: number;
  readonly browser?: BrowserContextOptions;
  /** What localStorage holds before the first page. */
  readonly remembered?: Record<string, string>;
}

export interface OpenPage {
  readonly page: Page;
  readonly mock: MockApi;
  /** Errors and warnings of the console, and errors nobody caught. */
  readonly complaints: string[];
  close(): Promise<void>;
}

/** @param plugins Of the build, for pages that are not quite those that are shipped. */
export async function openService(plugins: readonly Plugin[] = []): Promise<Service> {
  const pages: BuiltPages = await buildPages(plugins);
  const browser: Browser = await launchBrowser();
  return {
    async open({ path = '/', farm: change, token, speed = 1, browser: context = {}, remembered = {} } = {}) {
      const farm = mockFarm(farmNowMs);
      change?.(farm);
      const startedMs = performance.now();
      const nowMs = () => Math.round(farmNowMs + (performance.now() - startedMs) * speed);
      const mock = await startMockApi({
        pagesDir: pages.dir,
        farm,
        nowMs,
        speed,
        ...(token === undefined ? {} : { token }),
      });
      const opened = await browser.newContext({
        viewport: { width: 1440, height: 900 },
        locale: 'en-GB',
        timezoneId: 'UTC',
        ...context,
      });
      await opened.addInitScript((kept) => {
        for (const [key, value] of Object.entries(kept))
          if (localStorage.getItem(key) === null) localStorage.setItem(key, value);
      }, remembered);
      const page = await opened.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => {
        if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
      });
      page.on('pageerror', (error) => complaints.push(error.message));
      page.setDefaultTimeout(patienceMs);
      await page.goto(mock.url + path);
      return {
        page,
        mock,
        complaints,
        async close() {
          await opened.close();
          await mock.close();
        },
      };
    },
    async close() {
      await browser.close();
      await pages.remove();
    },
  };
}

/** The farm before anybody came. */
export function emptyFarm(farm: MockFarm): void {
  farm.piles = [];
  farm.sites = [];
  farm.probes = [];
}
