/** How long until the chart of 14 days at one minute is drawn, and what script that takes. */
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { openSlowPhone } from './slow-phone.ts';

/** Sizes of the scripts that a page asks for from now on [bytes, gzip]. */
function scriptsOf(page: Page): () => Promise<number> {
  const sizes: Promise<number>[] = [];
  page.on('response', (response) => {
    if (response.request().resourceType() !== 'script') return;
    sizes.push(response.body().then((body) => gzipSync(body).length));
  });
  return async () => (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
}

export async function chartDrawn(url: string): Promise<Record<string, number>> {
  const { page, close } = await openSlowPhone();
  const bytes = scriptsOf(page);
  await page.goto(`${url}/piles/pile-0`, { waitUntil: 'commit' });
  const drawn = await page.waitForFunction(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('main canvas');
    if (!canvas || canvas.width === 0) return undefined;
    const row = canvas.getContext('2d')?.getImageData(0, Math.floor(canvas.height / 2), canvas.width, 1).data;
    return row?.some((value) => value > 0) ? performance.now() : undefined;
  });
  const chart_ms = (await drawn.jsonValue()) ?? Number.NaN;
  const script_charts_kb = (await bytes()) / 1_000;
  await close();
  return { chart_ms, script_charts_kb };
}
