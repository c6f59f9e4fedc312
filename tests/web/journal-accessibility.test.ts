/**
 * The pages around the batch, light and dark, at 360 and 1440 px: nothing for axe to report, nothing sideways, targets for thumbs.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { openService, type Service } from './open-pages.ts';

const csv = 'time,temp\n2031-06-01 10:00,41\n2031-06-01 11:00,42\n2031-06-01 12:00,hot';
const h1 = (page: Page) => page.getByRole('heading', { level: 1 }).waitFor();
const mutation = (name: RegExp) => (page: Page) => page.getByRole('button', { name }).click();

const scenes: readonly [name: string, path: string, arrange: (page: Page) => Promise<unknown>][] = [
  [
    'planner, starter',
    '/plan/starter',
    async (page) => {
      await page.getByText('In kilograms').click();
      await page.getByLabel('Liquid wanted').fill('8');
      await page.getByLabel('Starter you measured out').fill('60');
      await page.getByText('Look again.').waitFor();
    },
  ],
  ['planner, water', '/plan/water', (page) => page.getByLabel('How much of it').fill('11.3')],
  [
    'planner, heap',
    '/plan/heap',
    async (page) => {
      await page.getByRole('radio', { name: 'Volume, in buckets' }).check();
      for (const index of [0, 1]) await page.getByLabel('How much').nth(index).fill('200');
      await page.getByLabel('Moisture wanted').fill('45');
      await page.getByLabel('Laid on').fill('2031-06-12T08:00');
      await page.getByText('When to look, turn and smell').waitFor();
    },
  ],
  ['laying what was planned', '/plan/lay?stage=soil&material=soil-mix&massKg=120', h1],
  ['journal', '/piles/wall-heap/journal', mutation(/^Growth$/)],
  [
    'journal with a corrected entry',
    '/piles/wall-heap/journal',
    async (page) => {
      await page.getByRole('button', { name: 'Turned' }).click();
      await page.getByRole('button', { name: 'Write it down' }).click();
      await page.getByRole('button', { name: /^Correct/ }).click();
    },
  ],
  ['batches', '/batches', (page) => page.getByRole('link', { name: 'May bran' }).waitFor()],
  ['batch, taking it on', '/batches/wall-heap-1', mutation(/^Move to the next stage/)],
  ['batch, using it', '/batches/wall-heap-1', mutation(/^Use it/)],
  ['batch, parting it', '/batches/wall-heap-1', mutation(/^Split/)],
  ['batch, putting it together', '/batches/wall-heap-1', mutation(/^Put together/)],
  ['batch, its smell and look', '/batches/wall-heap-1', mutation(/^Say how it smells/)],
  ['lots', '/lots', (page) => page.getByRole('link', { name: 'Oak wood' }).waitFor()],
  ['lot', '/lots/oak', (page) => page.getByText('Where it went').waitFor()],
  ['family tree', '/lineage?start=lot:oak', (page) => page.getByText('Where it went').waitFor()],
  ['record', '/batches/wall-heap-1/record', (page) => page.getByText('not a certification').waitFor()],
  ['records', '/records', (page) => page.getByText('first-secret').waitFor()],
  [
    'bringing in a file',
    '/import',
    async (page) => {
      const file = { name: 'a.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) };
      await page.getByLabel('CSV file').setInputFiles(file);
      await page.getByRole('button', { name: 'Look at it' }).click();
      await page.getByText('of 3 rows').waitFor();
    },
  ],
  ['more', '/more', h1],
];

let service: Service;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());

test.each(scenes)(
  '%s: axe finds nothing, nothing scrolls sideways, every target is 44 px high',
  async (_, path, arrange) => {
    const { page, complaints, close } = await service.open({ path });
    await h1(page);
    await arrange(page);
    expect(await findingsInEveryLook(page, { widths: [1440, 360] })).toEqual([]);
    const small = await page
      .locator(
        'button, select, input:not([type=radio]):not([type=checkbox]):not(.photo-pick input), summary, .choice label, .thumbs label, nav a, a.button, .batch-list a, .batch-links a, .file-list a',
      )
      .evaluateAll((all) =>
        all
          .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
          .map((one) => one.outerHTML),
      );
    expect(small).toEqual([]);
    const cautions = (await page.locator('.caution').allTextContents()).flatMap((text) =>
      text.replace(/^\s*Caution/, '').split(/(?<=\.)\s+/),
    );
    const twice = cautions.filter((sentence, i) => sentence.length > 30 && cautions.indexOf(sentence) !== i);
    expect(twice).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  },
);
