/**
 * Somebody new to it does a practice run on a phone: time runs fast, and they do what the sentences say.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { plainEnglish } from '../../shared/messages/render.ts';
import { createPractice } from '../../simulator/practice/practice.ts';
import { hotWeek } from '../../simulator/practice/scenarios/hot-week.ts';
import { hasChromium } from '../helpers/browser.ts';
import type { SpawnedInstallation } from '../helpers/spawn-server.ts';
import { openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';

let installation: SpawnedInstallation;
let page: Page;
let opened: SpawnedPage | undefined;
let troubles: readonly string[] = [];

beforeAll(async () => {
  if (!hasChromium) return;
  opened = await openSpawnedPage({ viewport: { width: 360, height: 740 } });
  ({ installation, page, troubles } = opened);
});
afterAll(() => opened?.close());

const button = (name: RegExp | string) => page.getByRole('button', { name });

/** What a newcomer would tap on reading a sentence, the first that fits; each at most once. */
const readings: readonly (readonly [says: RegExp, tap: RegExp])[] = [
  [/push it back/, /^Push back the core/],
  [/take the cover off/, /^Take the cover off$/],
  [/spread it (thinner|out)/i, /^Spread to/],
  [/turn it/i, /^Turn it$/],
  [/squeeze/i, /^Squeeze/],
];

async function doWhatItSays(done: Set<RegExp>): Promise<void> {
  const says = (await page.locator('.practice-run .next').first().textContent()) ?? '';
  for (const [sentence, tap] of readings) {
    if (!sentence.test(says) || done.has(tap) || (await button(tap).count()) === 0) continue;
    done.add(tap);
    await button(tap).click();
    await page.getByRole('status').filter({ hasText: /\w/ }).last().waitFor();
  }
}

/** Lets time run until a warning stops it or the run is over. */
async function letItRun(): Promise<'stopped' | 'over'> {
  await button('Let it run').click();
  const over = page.getByRole('heading', { name: 'How the points came' });
  const stopped = page.getByText('The clock stands still');
  await over.or(stopped).first().waitFor({ timeout: 120_000 });
  return (await over.isVisible()) ? 'over' : 'stopped';
}

test.runIf(hasChromium)(
  'a newcomer tends a hot week on a phone by what the page says, reads the score, and did better than nobody',
  { timeout: 300_000 },
  async () => {
    const startedMs = performance.now();
    await page.goto(installation.pagesUrl);
    await page.getByRole('radio', { name: 'Nothing yet: show me' }).check();
    await page.getByRole('link', { name: 'Practise on a simulated pile' }).click();
    await page.getByRole('link', { name: plainEnglish(hotWeek.name) }).click();
    await page.getByText(plainEnglish(hotWeek.goal.says)).waitFor();
    await page.getByText('The core is hot enough to scald').waitFor();
    await button('Go to the pile').first().click();
    await page.getByText(`hour 0 of ${hotWeek.hours}`).waitFor();
    await button('Faster').click();

    const done = new Set<RegExp>();
    const taps: string[] = [];
    while ((await letItRun()) === 'stopped') {
      taps.push((await page.getByText(/^hour \d+ of/).textContent()) ?? '');
      await doWhatItSays(done);
    }
    const headline = (await page.getByRole('heading', { level: 1 }).textContent()) ?? '';
    const tookS = (performance.now() - startedMs) / 1000;
    console.log(
      `practice run of ${hotWeek.hours} h on a 360 px page: ${tookS.toFixed(0)} s of real time, stopped at ${taps.join(', ')}. ${headline}`,
    );

    expect(done.size).toBeGreaterThan(0);
    const points = Number(/^(\d+) of 100\./.exec(headline)?.[1]);
    const parts = await page.locator('.score-points b').allTextContents();
    expect(parts.reduce((sum, part) => sum + Number(part), 0)).toBe(points);
    const alone = createPractice(hotWeek, 1);
    alone.advance(hotWeek.hours);
    expect(points).toBeGreaterThan(alone.debrief().score.points);
  },
);

test.runIf(hasChromium)(
  'the debrief shows the hidden layers beside what the probes said, and what each act did',
  async () => {
    await page.getByRole('heading', { name: 'What was so' }).waitFor();
    await page.getByRole('img', { name: /^The layers of the pile over time\. The hottest layer reached/ }).waitFor();
    expect(await page.getByRole('img', { name: /^Section of the pile: / }).count()).toBe(2);
    const acts = page.getByRole('region', { name: 'What each act did' });
    expect(await acts.getByRole('listitem').count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Again, in other weather' }).first().click();
    await page.getByText(`hour 0 of ${hotWeek.hours}`).waitFor();
  },
);

test.runIf(hasChromium)('nothing was refused or complained of, and nothing is wider than the phone', async () => {
  const [needs, has] = await page.evaluate<[number, number]>(
    '[document.documentElement.scrollWidth, window.innerWidth]',
  );
  expect(needs).toBeLessThanOrEqual(has);
  expect(troubles).toEqual([]);
});
