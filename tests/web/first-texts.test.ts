/** A phone with a slow line reads how its piles are before the texts have come. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { message } from '../../shared/messages/message.ts';
import { hasChromium } from '../helpers/browser.ts';
import { openService, type Service } from './open-pages.ts';

let service: Service;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());

test.skipIf(!hasChromium)(
  'home says what the server said until its texts are here, and words it anew then',
  async () => {
    const { page, mock, close } = await service.open({ path: '/more' });
    const barn = mock.farm.piles.find(({ id }) => id === 'barn-bed');
    if (!barn) throw new Error('no such pile');
    barn.condition = 'As the server worded it.';
    barn.messages = { condition: message('say.next.turn-now'), next: message('say.next.turn-now') };
    let release = () => {};
    const released = new Promise<void>((resolve) => {
      release = resolve;
    });
    const asked = new Promise<void>((resolve) => {
      void page.route(/\/render-pile-[^/]*\.js$/, async (route) => {
        resolve();
        await released;
        await route.continue();
      });
    });
    await page.goto(new URL('/', page.url()).href);
    const entry = page.getByRole('article', { name: 'Barn bran bed' });
    await entry.getByText('As the server worded it.').waitFor();
    await asked;
    release();
    await entry.getByText('As the server worded it.').waitFor({ state: 'detached' });
    expect(await entry.locator('.sentence').textContent()).toMatch(/^Turn it or spread it thinner now/);
    await close();
  },
);
