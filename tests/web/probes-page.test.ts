/** The page of probes while it waits for its first answer, in a real browser. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type OpenPage, openService, type Service } from './open-pages.ts';

let service: Service;
let opened: OpenPage;
beforeAll(async () => {
  service = await openService();
  opened = await service.open({ path: '/settings' });
});
afterAll(async () => {
  await opened.close();
  await service.close();
});

test('says that it looks, and says how many talk once it knows', async () => {
  const { page } = opened;
  let answer = () => {};
  const held = new Promise<void>((resolve) => {
    answer = resolve;
  });
  await page.route('**/api/**', async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(`${opened.mock.url}/probes`);
  const heading = page.getByRole('heading', { level: 1 });
  await heading.filter({ hasText: 'Looking at the probes…' }).waitFor();
  expect(await page.getByText('No probe has talked yet').count()).toBe(0);
  answer();
  await heading.filter({ hasText: /probes? talks?/ }).waitFor();
  expect(await page.getByText('Looking at the probes…').count()).toBe(0);
  // Those of a pile together.
  const pile = page.getByRole('region', { name: 'Barn bran bed' });
  await pile.getByRole('heading', { name: 'Core' }).waitFor();
});
