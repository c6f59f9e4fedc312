/**
 * The practice page in a real browser: readable for everybody, worked by keyboard, and in need of nothing from the server.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { findingsInEveryLook } from '../helpers/axe.ts';
import { openService, type Service } from './open-pages.ts';

let service: Service;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());

const hourShown = (page: Page) => page.getByText(/^hour \d+ of \d+$/);

/** Jumps on and waits until the hour has changed. */
async function skip(page: Page): Promise<void> {
  const before = await hourShown(page).textContent();
  await page.getByRole('button', { name: '6 h on' }).click();
  await page.waitForFunction((was) => !document.body.textContent?.includes(was), before ?? '');
}

async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Go to the pile' }).first().click();
  await hourShown(page).waitFor();
}

async function finish(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Say it is done' }).click();
  await page.getByRole('button', { name: 'It is done: end the run' }).click();
  await page.getByRole('heading', { name: 'How the points came' }).waitFor();
}

const scenes: readonly { name: string; path: string; arrange: (page: Page) => Promise<void> }[] = [
  {
    name: 'list of practice piles',
    path: '/practice',
    arrange: (page) => page.getByRole('heading', { name: 'Probe pulled out' }).waitFor(),
  },
  {
    name: 'a practice pile before it is begun',
    path: '/practice/cold-nights',
    arrange: (page) => page.getByRole('heading', { name: 'Before you touch a real one' }).waitFor(),
  },
  {
    name: 'a practice pile with a warning',
    path: '/practice/probe-out',
    async arrange(page) {
      await begin(page);
      await page.getByRole('button', { name: 'Squeeze a handful' }).click();
      await page.getByText('Squeezed a handful').first().waitFor();
      await page.getByRole('button', { name: 'Say it is done' }).click();
      await page.locator('canvas').first().waitFor();
      await page.locator('summary').evaluateAll((all) => {
        for (const one of all) (one as HTMLElement).click();
      });
    },
  },
  {
    name: 'a practice pile cut open',
    path: '/practice/forgotten',
    async arrange(page) {
      await begin(page);
      for (const act of ['Turn it', 'Water: 4', 'Spread to']) {
        await page.getByRole('button', { name: act }).click();
      }
      await skip(page);
      await finish(page);
    },
  },
];

describe('practice', () => {
  for (const { name, path, arrange } of scenes) {
    test(`${name}: axe finds nothing, targets are large, nothing scrolls sideways, light and dark, at 1440 and 360 px`, async () => {
      const { page, complaints, close } = await service.open({ path });
      await arrange(page);
      const fits = async (width: number) => {
        const margin = await page.locator('main button').evaluateAll((all) => {
          const edge = document.querySelector('main .page')?.getBoundingClientRect();
          const style = getComputedStyle(document.querySelector('main .page') ?? document.body);
          const right = (edge?.right ?? innerWidth) - Number.parseFloat(style.paddingRight);
          return all.filter((one) => one.getBoundingClientRect().right > right + 1).map((one) => one.textContent);
        });
        expect([width, margin]).toEqual([width, []]);
        // The hour now is told by a stake on this line, to its very end.
        const cut = await page
          .locator('.day-line')
          .evaluateAll((all) =>
            all.map((line) => Math.max(0, (line.querySelector('svg')?.clientWidth ?? 0) - line.clientWidth - 1)),
          );
        expect([width, cut.filter((beyond) => beyond > 0)]).toEqual([width, []]);
      };
      expect(await findingsInEveryLook(page, { widths: [1440, 360], onLook: fits })).toEqual([]);
      const small = await page
        .locator('main button, main input, main summary, main a.button')
        .evaluateAll((all) =>
          all
            .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
            .map((one) => one.outerHTML),
        );
      expect(small).toEqual([]);
      expect(complaints).toEqual([]);
      await close();
    });
  }

  test('a run needs nothing from the server: without an API it goes from story to score', async () => {
    const { page, close } = await service.open({ path: '/practice/forgotten' });
    await page.route('**/api/**', (route) => route.abort());
    await page.reload();
    await begin(page);
    await skip(page);
    await finish(page);
    await page.getByRole('heading', { level: 1, name: /^\d+ of 100\. / }).waitFor();
    await close();
  });

  test('by keyboard alone: begin, turn, end; the heading has the focus when one part gives way to the next', async () => {
    const { page, close } = await service.open({ path: '/practice/hot-week' });
    const press = async (name: string) => {
      await page.getByRole('button', { name }).first().focus();
      await page.keyboard.press('Enter');
    };
    await press('Go to the pile');
    await hourShown(page).waitFor();
    await page.waitForFunction(() => document.activeElement?.textContent === 'A hot week');
    await press('6 h on');
    await page.getByText('hour 6 of 144').waitFor();
    await press('Turn it');
    await page.getByRole('status').filter({ hasText: 'Turned.' }).waitFor();
    await press('Say it is done');
    await press('It is done: end the run');
    await page.waitForFunction(() => document.activeElement?.tagName === 'H1');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^\d+ of 100/);
    const slider = page.getByRole('slider');
    await slider.focus();
    await page.keyboard.press('Home');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^Hour 0, day 1, 08:00\. Hottest layer \d+/);
    await page.keyboard.press('ArrowRight');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^Hour 1, day 1, 09:00/);
    await close();
  });

  test('a new warning stops the clock and is said aloud; time goes on when the person lets it', async () => {
    const { page, close } = await service.open({ path: '/practice/forgotten' });
    await begin(page);
    await skip(page);
    await page.getByRole('button', { name: 'Faster' }).click();
    await page.getByRole('button', { name: 'Let it run' }).click();
    await page.getByText('The clock stands still').waitFor();
    expect(await page.getByRole('log', { name: 'New warnings of this pile' }).textContent()).toMatch(
      /^The clock stands\. New warning: Overheating soon\. /,
    );
    await page.getByRole('button', { name: 'Let it run' }).waitFor();
    await page.getByRole('button', { name: 'Let it run' }).click();
    await page.getByRole('button', { name: 'Hold' }).waitFor();
    await close();
  });

  test('a run is still there after a look at another page, held; its best score is remembered', async () => {
    const { page, close } = await service.open({ path: '/practice/forgotten' });
    await begin(page);
    await skip(page);
    const hour = await hourShown(page).textContent();
    await page.getByRole('main').getByRole('link', { name: 'Practice' }).click();
    await page.getByText('You are in the middle of it').waitFor();
    await page.getByRole('link', { name: 'Forgotten for two days' }).click();
    expect(await hourShown(page).textContent()).toBe(hour);
    await finish(page);
    const points = /^\d+/.exec((await page.getByRole('heading', { level: 1 }).textContent()) ?? '')?.[0];
    await page.getByRole('link', { name: 'Another pile' }).first().click();
    await page.getByText(`Your best so far: ${points} of 100.`).waitFor();
    await close();
  });

  test('a run that is ended at once has a debrief all the same', async () => {
    const { page, complaints, close } = await service.open({ path: '/practice/hot-week' });
    await begin(page);
    await finish(page);
    await page.getByText('You did nothing to this pile').waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  test('an address without a practice pile says so', async () => {
    const { page, close } = await service.open({ path: '/practice/no-such-pile' });
    await page.getByText('There is no page').first().waitFor();
    await close();
  });
});
