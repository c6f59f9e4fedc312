/** The home page of a farm of forty piles, in a real browser: found, chosen, and as it was after going back. */
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { toInstant } from '../../shared/contracts/time.ts';
import { msPerHour } from '../../shared/units.ts';
import { fortyPiles } from '../helpers/forty-piles.ts';
import type { MockFarm } from '../helpers/mock-farm.ts';
import { until } from '../helpers/until.ts';
import { type OpenOptions, type OpenPage, openService, type Service } from './open-pages.ts';

let service: Service;
let opened: OpenPage | undefined;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

const phone = { viewport: { width: 390, height: 844 } };
async function open(options: OpenOptions = {}): Promise<OpenPage> {
  opened = await service.open({ farm: fortyPiles, ...options });
  await opened.page.locator('.pile-line').first().waitFor();
  return opened;
}
const names = ({ page }: OpenPage) => page.getByRole('heading', { level: 3 }).allTextContents();

test('those that need somebody stand first, of all sites; the others by site, a line each', async () => {
  const here = await open();
  expect(await here.page.getByRole('heading', { level: 1 }).textContent()).toBe('Eight of 40 piles need you now.');
  expect((await names(here)).slice(0, 8)).toEqual([
    'Bed 1',
    'Bed 6',
    'Bed 11',
    'Bed 16',
    'Bed 21',
    'Bed 26',
    'Bed 31',
    'Bed 36',
  ]);
  const others = here.page.getByRole('heading', { level: 2, name: /16 piles, nothing to do/ });
  expect(await others.count()).toBe(2);
  expect(here.complaints).toEqual([]);
});

test('typing finds a pile, and the address says what was chosen', async () => {
  const here = await open();
  await here.page.getByLabel('Find a pile').fill('bed 3');
  await here.page.getByText('11 of 40 piles.').waitFor();
  await here.page.getByLabel('How it is').selectOption('need');
  await here.page.getByText('2 of 40 piles.').waitFor();
  expect(await names(here)).toEqual(['Bed 31', 'Bed 36']);
  expect(new URL(here.page.url()).search).toBe('?find=bed+3&state=need');
  await here.page.getByLabel('Find a pile').fill('no such pile');
  await here.page.getByText('No pile is like that.').waitFor();
  await here.page.getByRole('button', { name: 'Show all' }).click();
  await until('all forty', async () => (await names(here)).length === 40 || undefined);
});

test('whoever goes back from a pile finds the choice and the place on the page as they left them', async () => {
  const here = await open({ path: '/?order=name', browser: phone });
  const { page } = here;
  await page.getByRole('link', { name: 'Bed 30', exact: true }).scrollIntoViewIfNeeded();
  await until('it scrolled', async () => (await page.evaluate(() => scrollY)) > 400 || undefined);
  await page.waitForFunction(() => document.querySelector('.pile-line .small-curve') !== null);
  const left = await page.evaluate(() => scrollY);
  await page.getByRole('link', { name: 'Bed 30', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: 'Bed 30' }).waitFor();
  expect(await page.evaluate(() => scrollY)).toBe(0);
  await page.goBack();
  await page.getByRole('link', { name: 'Bed 30', exact: true }).waitFor();
  await until('its place', async () => Math.abs((await page.evaluate(() => scrollY)) - left) < 400 || undefined);
  expect(new URL(page.url()).search).toBe('?order=name');
});

test('a line names shelved warnings, as the card of a few piles does', async () => {
  const shelvedUntil = toInstant(Date.now() + 3 * msPerHour);
  const shelve = (farm: MockFarm) => {
    const like = farm.piles.flatMap(({ alarms }) => alarms)[0];
    fortyPiles(farm);
    const [first] = farm.piles;
    if (!like || !first) throw new Error('no pile, or none with a warning');
    first.alarms = [{ ...like, kind: 'drying', position: null, state: 'shelved', shelvedUntil }];
  };
  const { page } = await open({ farm: shelve });
  const line = page.locator('.pile-line', { has: page.getByRole('heading', { name: 'Bed 1', exact: true }) });
  await line.getByText(/^Drying, shelved until .*\.$/).waitFor();
  expect(await page.getByText(/shelved until/).count()).toBe(1);
});
