/** Names are people's: one long word, such as German has, stays within every page. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasChromium } from '../helpers/browser.ts';
import { openService, type Service } from './open-pages.ts';

const longWord = 'Rindenmulchhaufenabdeckplanenbefestigungsseilaufbewahrungskistendeckel';
const paths = ['/', '/piles/north-bed', '/piles/north-bed/journal', '/piles/north-bed/why/overheating', '/records'];
let service: Service;

beforeAll(async () => {
  if (hasChromium) service = await openService();
});
afterAll(() => service?.close());

test.runIf(hasChromium)('a name of one long word widens no page, not even on a phone', async () => {
  const { page, mock, close } = await service.open({
    farm: (farm) => {
      for (const one of [...farm.piles, ...farm.sites]) one.name = longWord;
    },
    browser: { viewport: { width: 360, height: 740 } },
  });
  const widths: [string, number][] = [];
  for (const path of paths) {
    await page.goto(mock.url + path);
    await page.getByText(longWord).filter({ visible: true }).first().waitFor();
    widths.push([path, await page.evaluate(() => document.documentElement.scrollWidth)]);
  }
  expect(widths).toEqual(paths.map((path) => [path, 360]));
  await close();
});
