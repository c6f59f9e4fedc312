/**
 * Every page, light and dark, at 360 and 1440 px: nothing for axe to report, nothing that scrolls sideways.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { fortyPiles } from '../helpers/forty-piles.ts';
import { emptyFarm, type OpenOptions, openService, type Service } from './open-pages.ts';

interface Scene {
  readonly name: string;
  readonly open: OpenOptions;
  /** Brings the page to the state that is looked at. */
  readonly arrange?: (page: Page) => Promise<unknown>;
}

const chartsDrawn = (page: Page) => page.locator('canvas').first().waitFor();

const scenes: readonly Scene[] = [
  { name: 'home', open: { path: '/' }, arrange: (page) => page.getByRole('heading', { name: 'Old stack' }).waitFor() },
  {
    name: 'welcome',
    open: { path: '/', farm: emptyFarm },
    arrange: (page) => page.getByText('Lay the first').waitFor(),
  },
  ...(['A thermometer', 'A sensor that already sends', 'Parts to build one', 'Nothing yet: show me'] as const).map(
    (way): Scene => ({
      name: `welcome with ${way}`,
      open: { path: '/', farm: emptyFarm },
      async arrange(page) {
        await page.getByRole('radio', { name: way }).click();
        await page.locator('.welcome-way').first().waitFor();
      },
    }),
  ),
  {
    name: 'letting probes and a phone in',
    open: { path: '/reach' },
    arrange: (page) => page.getByText('Before you do').waitFor(),
  },
  {
    name: 'token',
    open: { path: '/', token: 'stone' },
    arrange: (page) => page.getByLabel('Token').waitFor(),
  },
  {
    name: 'home of forty piles',
    open: { path: '/?stage=bran', farm: fortyPiles },
    arrange: (page) => page.locator('.small-curve').first().waitFor(),
  },
  { name: 'pile', open: { path: '/piles/north-bed' }, arrange: chartsDrawn },
  {
    name: 'pile with everything open',
    open: { path: '/piles/north-bed' },
    async arrange(page) {
      await chartsDrawn(page);
      await page.getByRole('button', { name: 'Shelve…' }).click();
      await page.getByRole('button', { name: 'Watered' }).click();
      await page.locator('summary').evaluateAll((all) => {
        for (const one of all) (one as HTMLElement).click();
      });
      await page.getByRole('radio', { name: 'Choose…' }).check();
      await page.getByRole('radio', { name: 'Table' }).check();
      await page.getByRole('columnheader', { name: 'Core, °C', exact: true }).waitFor();
    },
  },
  {
    name: 'pile with a hand to be asked about and a day ahead',
    open: { path: '/piles/barn-bed' },
    async arrange(page) {
      await chartsDrawn(page);
      await page.getByText('Was it?').waitFor();
      await page.locator('.fan-swatch').waitFor();
    },
  },
  {
    name: 'pile that waits for a person’s nose, everything open',
    open: { path: '/piles/wall-heap' },
    async arrange(page) {
      await chartsDrawn(page);
      await page.getByText('Say how it smells and looks').waitFor();
      await page.locator('summary').evaluateAll((all) => {
        for (const one of all) (one as HTMLElement).click();
      });
      await page.getByRole('group', { name: 'Its smell' }).waitFor();
    },
  },
  {
    name: 'why, at a glance',
    open: { path: '/piles/rice-bed/why' },
    arrange: (page) => page.getByRole('heading', { name: 'Not known' }).waitFor(),
  },
  ...(['drying', 'overheating-soon', 'probe-silent'] as const).map((kind) => ({
    name: `why: ${kind}`,
    open: { path: `/piles/${kind === 'drying' ? 'wall-heap' : 'north-bed'}/why/${kind}` },
    arrange: (page: Page) => page.getByRole('heading', { name: 'The rule' }).waitFor(),
  })),
  { name: 'pile with silent probes', open: { path: '/piles/rice-bed' }, arrange: chartsDrawn },
  {
    name: 'pile without a batch',
    open: { path: '/piles/lower-bed' },
    arrange: (page) => page.getByRole('heading', { name: 'Lay the next batch here' }).waitFor(),
  },
  { name: 'new pile', open: { path: '/piles/new' }, arrange: (page) => page.getByLabel('Name of the pile').waitFor() },
  {
    name: 'probes',
    open: { path: '/probes' },
    async arrange(page) {
      await page.getByRole('button', { name: 'Claim it' }).waitFor();
      await page.locator('summary').first().click();
    },
  },
  {
    name: 'incoming',
    open: { path: '/incoming' },
    async arrange(page) {
      await page.getByText('Power-on value').first().waitFor();
      await page.locator('summary').first().click();
      await page.getByText('Nothing of your device here?').click();
      await page.getByRole('button', { name: 'Take air › t 186' }).click();
      await page.getByRole('button', { name: 'Take air › rh 71.2' }).click();
      await page.getByRole('group').getByText('More').click();
      await page.getByLabel('Topic that says whether it is there').fill('shed/will');
      await page.getByText('becomes humidity').first().waitFor();
    },
  },
  { name: 'settings', open: { path: '/settings' }, arrange: (page) => page.getByText('System status').waitFor() },
  {
    name: 'no page',
    open: { path: '/nowhere' },
    arrange: (page) => page.getByRole('heading', { name: 'There is no page at this address.' }).waitFor(),
  },
];

describe('pages', () => {
  let service: Service;
  beforeAll(async () => {
    service = await openService();
  });
  afterAll(() => service.close());

  for (const { name, open, arrange } of scenes) {
    test(`${name}: axe finds nothing and nothing scrolls sideways, light and dark, at 1440 and 360 px`, async () => {
      const { page, close } = await service.open(open);
      await arrange?.(page);
      // A table's rows are alike, so the first few stand for all.
      const exclude = ['.series-table tbody tr:nth-child(n+6)'];
      expect(await findingsInEveryLook(page, { widths: [1440, 360], exclude })).toEqual([]);
      await close();
    });
  }

  test('targets are at least 44 px high where a thumb is to hit them', async () => {
    for (const path of [
      '/',
      '/piles/north-bed',
      '/piles/barn-bed',
      '/piles/wall-heap/why/drying',
      '/probes',
      '/settings',
      '/piles/new',
      '/incoming',
    ]) {
      const { page, close } = await service.open({ path, browser: { viewport: { width: 360, height: 780 } } });
      await page.locator('main button, main .choice label, main .entry, main .why-found').first().waitFor();
      const small = await page
        .locator('button, select, input:not([type=radio]), summary, .choice label, nav a, a.button')
        .evaluateAll((all) =>
          all
            .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
            .map((one) => one.outerHTML),
        );
      expect(small).toEqual([]);
      await close();
    }
  });
});
