/** The figures of the planner in the page: kept between its three pages and when going away, answered as they were measured. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openService, type Service } from './open-pages.ts';

let service: Service;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());

test('figures stay when the question changes, when somebody goes away and comes back, and until they are cleared', async () => {
  const { page, complaints, close } = await service.open({ path: '/plan/water' });
  await page.getByLabel('How much of it').fill('12');
  await page.getByLabel('Diluted starter that goes in').fill('8');
  const planner = page.getByRole('navigation', { name: 'What to work out' });
  await planner.getByRole('link', { name: 'Starter' }).click();
  await page.getByRole('heading', { name: 'How much starter' }).waitFor();
  expect(await page.getByLabel('Liquid wanted').inputValue()).toBe('8');
  await page.getByText('Take 16 mL of starter').waitFor();
  await page.getByText('Water to make it up').waitFor();
  expect(await page.locator('.figures').textContent()).not.toContain('7.984');
  await page.getByLabel('Measured in').selectOption('fl-oz');
  await page.getByText('Take 0.541 US fl oz of starter').waitFor();

  await page.goto(new URL('/more', page.url()).href);
  await page.goto(new URL('/plan/heap', page.url()).href);
  await page.getByRole('radio', { name: 'Mass, on scales' }).check();
  expect(await page.getByLabel('How much').first().inputValue()).toBe('12');
  expect(await page.getByLabel('Diluted starter that goes in').inputValue()).toBe('8');
  expect(await page.getByRole('radio', { name: 'Bran stage' }).isChecked()).toBe(true);

  await page.getByRole('button', { name: 'Clear all figures' }).click();
  expect(await page.getByLabel('Diluted starter that goes in').inputValue()).toBe('');
  await page.reload();
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await page.getByLabel('Diluted starter that goes in').inputValue()).toBe('');
  expect(complaints).toEqual([]);
  await close();
});
