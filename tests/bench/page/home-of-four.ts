/** How long until the sentence of four piles can be read, at the first visit and at the next. */
import type { Page } from 'playwright-core';
import { openSlowPhone } from './slow-phone.ts';

/** Since the visit began [ms]. The heading is there before it knows, but no pile is named then. */
async function sentenceMs(page: Page, url: string): Promise<number> {
  await page.goto(url, { waitUntil: 'commit' });
  const shown = await page.waitForFunction(() => {
    const isThere = document.querySelector('.entries h3') !== null;
    return isThere && document.querySelector('h1')?.textContent ? performance.now() : undefined;
  });
  return (await shown.jsonValue()) ?? Number.NaN;
}

export async function homeOfFour(url: string): Promise<Record<string, number>> {
  const phone = await openSlowPhone();
  const home_first_ms = await sentenceMs(phone.page, url);
  // What the page keeps for the next visit is fetched after it stands.
  await phone.page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await phone.page.close();
  const next = await phone.again();
  const home_again_ms = await sentenceMs(next.page, url);
  await phone.close();
  return { home_first_ms, home_again_ms };
}
