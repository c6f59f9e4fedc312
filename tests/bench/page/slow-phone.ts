/** A page as on a slow phone far away from the server. */
import type { Browser, BrowserContext, CDPSession, Page, Request } from 'playwright-core';
import { launchBrowser } from '../../helpers/browser.ts';

const bytesOf = (kbitPerS: number) => (kbitPerS * 1_000) / 8;
const quietMs = 600;
const mostMs = 300_000;

export interface SlowPhone {
  readonly page: Page;
  readonly cdp: CDPSession;
  /** Once nothing has been on its way for a while; what stays open is not waited for. */
  settled(): Promise<void>;
  /** Another page of the same phone, which keeps what it loaded. */
  again(): Promise<SlowPhone>;
  close(): Promise<void>;
}

/** @param watch Runs in each page before anything of its own. */
export async function openSlowPhone(watch?: () => void): Promise<SlowPhone> {
  const browser = await launchBrowser();
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en-GB', hasTouch: true });
  if (watch) await context.addInitScript(watch);
  return openPage(browser, context);
}

async function openPage(browser: Browser, context: BrowserContext): Promise<SlowPhone> {
  const page = await context.newPage();
  page.setDefaultTimeout(mostMs);
  page.setDefaultNavigationTimeout(mostMs);
  const cdp = await context.newCDPSession(page);
  await cdp.send('Network.enable');
  await cdp.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 150,
    downloadThroughput: bytesOf(1_600),
    uploadThroughput: bytesOf(750),
  });
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  return {
    page,
    cdp,
    settled: watchRequests(page),
    again: () => openPage(browser, context),
    close: () => browser.close(),
  };
}

function watchRequests(page: Page): SlowPhone['settled'] {
  const open = new Set<Request>();
  let lastMs = performance.now();
  const change = (act: (request: Request) => void) => (request: Request) => {
    act(request);
    lastMs = performance.now();
  };
  page.on(
    'request',
    change((request) => !request.url().endsWith('/api/live') && open.add(request)),
  );
  for (const ended of ['requestfinished', 'requestfailed'] as const)
    page.on(
      ended as 'requestfinished',
      change((request) => open.delete(request)),
    );
  return async () => {
    const giveUpMs = performance.now() + mostMs;
    while (open.size > 0 || performance.now() - lastMs < quietMs) {
      if (performance.now() > giveUpMs)
        throw new Error(`Still on their way: ${[...open].map((one) => one.url()).join(', ')}`);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };
}
