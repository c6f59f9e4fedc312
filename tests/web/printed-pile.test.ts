/** A pile on paper: its chart stands above its key, and nothing is there to be pressed. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openService, type Service } from './open-pages.ts';

let service: Service;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());

test.each([390, 1440])('drawn at %d px, the chart of a printed pile ends above its key', async (width) => {
  const { page, close } = await service.open({
    path: '/piles/wall-heap',
    browser: { viewport: { width, height: 900 } },
  });
  await page.locator('.chart canvas').first().waitFor();
  await page.emulateMedia({ media: 'print' });
  const chart = await page.locator('.chart canvas').first().boundingBox();
  const key = await page.locator('.band-key').first().boundingBox();
  if (!chart || !key) throw new Error('the chart or its key is not there');
  expect(chart.y + chart.height).toBeLessThanOrEqual(key.y);
  const pressed = page.locator('button:visible, a.button:visible, input:visible');
  expect(await pressed.evaluateAll((all) => all.map((one) => one.outerHTML.slice(0, 90)))).toEqual([]);
  if (process.env.KEEP_PICTURES)
    await page.pdf({ path: `${process.env.KEEP_PICTURES}/pile-${width}.pdf`, format: 'A4' });
  await close();
});
