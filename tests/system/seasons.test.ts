/**
 * Seasons side by side in a real browser, over the two invented years of Saltmere: from a question to a record.
 */
import { mkdir } from 'node:fs/promises';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeFindings, findingsInEveryLook } from '../helpers/axe.ts';
import { type BuiltPages, buildPages, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { openPastInstallation, type PastInstallation } from '../helpers/past-server.ts';
import { patienceMs } from '../helpers/until.ts';

let installation: PastInstallation;
let pages: BuiltPages;
let browser: Browser;
let address: string;
let remove: () => Promise<void>;
/** Folder for screenshots to be looked at; none are made without it. */
const shotsDir = process.env.BRANHEARTH_SHOTS;

describe.skipIf(!hasChromium)('seasons side by side', () => {
  beforeAll(async () => {
    const folder = await makeDataDir();
    remove = folder.remove;
    pages = await buildPages();
    installation = await openPastInstallation(folder.dataDir, pages.dir);
    address = await installation.app.listen({ host: '127.0.0.1', port: 0 });
    browser = await launchBrowser();
    if (shotsDir !== undefined) await mkdir(shotsDir, { recursive: true });
  });
  afterAll(async () => {
    await browser?.close();
    await installation?.close();
    await pages?.remove();
    await remove?.();
  });

  async function open(path: string, options: BrowserContextOptions = {}) {
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      locale: 'en-GB',
      timezoneId: 'UTC',
      ...options,
    });
    const page = await context.newPage();
    page.setDefaultTimeout(patienceMs);
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(address + path);
    return { page, complaints, close: () => context.close() };
  }

  test('“which batch was best last year”: by year, by hours in the comfortable band, to its record', async () => {
    const { page, complaints, close } = await open('/more');
    await page.getByRole('link', { name: 'Seasons side by side' }).click();
    await page.getByLabel('Stage').selectOption('bran');
    await page.getByLabel('Year', { exact: true }).selectOption('2030');
    await page.getByText('8 batches', { exact: true }).waitFor();
    await page.getByRole('button', { name: /In the comfortable band/ }).click();
    const column = page.locator('.measure-table thead th').filter({ hasText: 'In the comfortable band' });
    expect(await column.getAttribute('aria-sort')).toBe('descending');
    const comfort = await page
      .locator('.measure-table tbody tr')
      .evaluateAll((rows) => rows.map((row) => Number(row.querySelectorAll('td')[6]?.textContent)));
    expect(comfort).toHaveLength(8);
    expect(comfort).toEqual([...comfort].sort((a, b) => b - a));

    const best = page.locator('.measure-table tbody tr').first().getByRole('link');
    const name = (await best.textContent()) ?? '';
    // The address is the comparison: opened elsewhere, it shows the same.
    const elsewhere = await open(new URL(page.url()).pathname + new URL(page.url()).search);
    await elsewhere.page.getByRole('link', { name }).first().waitFor();
    expect(await elsewhere.page.locator('.measure-table tbody tr').first().getByRole('link').textContent()).toBe(name);
    await elsewhere.close();

    await best.click();
    await page.getByRole('heading', { level: 1 }).filter({ hasText: name }).waitFor();
    expect(page.url()).toMatch(/\/batches\/[^/]+\/record$/);
    expect(complaints).toEqual([]);
    await close();
  });

  for (const width of [390, 1440]) {
    test(`“which batch was best last year and what was different about it” is answered in words at ${width} px`, async () => {
      const { page, complaints, close } = await open('/seasons', { viewport: { width, height: 844 } });
      const answer = page.getByRole('region', { name: 'Which was best in 2030?' });
      await answer.waitFor();
      const bran = answer.locator('.best-stage').filter({ hasText: 'Bran stage' });
      const sentence = (await bran.locator('.best-answer').textContent()) ?? '';
      expect(sentence).toMatch(/^.+ bran, \w+ 2030 was the best of 2030: judged good: it grew white all through\.$/);
      await bran.getByRole('heading', { name: 'What was different about it' }).waitFor();
      expect(await bran.textContent()).toMatch(
        /The \d+ judged good beside the \d+ judged poor, of all years shown here: \d+ measures differ clearly\./,
      );
      await bran
        .getByText(/^What people said of the latter: never warm enough/)
        .first()
        .waitFor();
      const clear = await bran.locator('.best-different > .differences > li').allTextContents();
      expect(clear.length).toBeGreaterThan(0);
      const [name = ''] = sentence.split(' was the best');
      for (const difference of clear) {
        expect(difference).toMatch(
          /^.+: about .+ (higher|lower) in the good ones than in the (usable|poor|lost) ones, between .+ and .+ \(95 in 100; .+\)\. /,
        );
        expect(difference).toContain(` ${name}: `);
      }
      await bran.getByText('does not say why').waitFor();
      // The table stands in the same order, the best first.
      const first = page.locator('.measure-table tbody tr').first();
      expect(await first.locator('td').nth(1).textContent()).toBe('good');
      await bran.getByRole('link', { name }).first().click();
      await page.getByRole('heading', { level: 1, name }).waitFor();
      await page.getByRole('region', { name: 'How did it come out?' }).getByText('Judged good').waitFor();
      expect(complaints).toEqual([]);
      await close();
    });
  }

  test('groups are made by verdict, the best first', async () => {
    const { page, close } = await open('/seasons?stage=bran');
    await page.getByLabel('Part them by').selectOption('verdict');
    const one = page.getByLabel('One group');
    await one.waitFor();
    expect(await one.locator('option').first().textContent()).toMatch(/^good \(\d+\)$/);
    await close();
  });

  test('two groups are told in words with their batches, and with no cause', async () => {
    const { page, close } = await open('/seasons?stage=bran');
    await page.getByLabel('Part them by').selectOption('year');
    await page.getByText('8 batches each').first().waitFor({ state: 'attached' });
    await page.getByRole('region', { name: 'Two groups' }).getByText('does not say why').waitFor();
    await page.getByLabel('Season', { exact: true }).selectOption('2030-summer');
    await page.getByLabel('Part them by').selectOption('site');
    await page.getByText('too few to tell').first().waitFor();
    await close();
  });

  test('a curve is brought out by its tick and named beneath the drawing; alone, each has its own', async () => {
    const { page, close } = await open('/seasons?stage=soil');
    const first = page.locator('.measure-table tbody tr').first();
    const name = (await first.getByRole('link').textContent()) ?? '';
    await first.getByRole('checkbox').check();
    await page.locator('.curve-key').getByText(name).waitFor();
    await page.getByRole('radio', { name: 'each by itself' }).check();
    await page.locator('.apart svg').nth(7).waitFor();
    expect(await page.locator('.apart svg').count()).toBe(8);
    await close();
  });

  test('a season is named by the grower', async () => {
    const { page, close } = await open('/seasons');
    await page.getByRole('button', { name: 'Name autumn 2030' }).click();
    await page.getByLabel('Name of autumn 2030').fill('the late warm one');
    await page.getByRole('button', { name: 'Keep the name' }).click();
    await page.locator('.season-names').getByText('The late warm one').waitFor();
    await close();
  });

  test('a running batch has past ones like it, with what was done and how they ended', async () => {
    const { page, complaints, close } = await open(`/batches/${installation.runningId}`);
    await page.getByRole('link', { name: 'Past batches like it' }).click();
    await page.getByRole('heading', { name: /^Past batches like/ }).waitFor();
    expect(await page.locator('.closest > li').count()).toBe(5);
    await page.getByText('How it ended').first().waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  test('the expected band of a running pile is shown from the model, from own batches, or from both', async () => {
    const { page, complaints, close } = await open('/piles/barn-bed');
    await page.getByRole('radio', { name: /^from your \d+ batches$/ }).check();
    await page.getByText(/From \d+ finished batches of your own/).waitFor();
    await page.getByRole('radio', { name: 'from the model' }).check();
    await page.getByText(/From \d+ finished batches of your own/).waitFor({ state: 'hidden' });
    await page.getByRole('radio', { name: 'both' }).check();
    await page.getByText(/, and from \d+ finished batches of your own/).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  test('an earlier batch out of a notebook is looked at, kept, and stands beside the others', async () => {
    const { page, complaints, close } = await open('/seasons/earlier');
    await page.getByLabel('What it is called').fill('Blue notebook');
    await page
      .getByLabel('Its temperatures')
      .fill('2027-05-01 21 14\n2027-05-02 34 15\n2027-05-03 44 16\nrain\n2027-05-04 30');
    await page.getByRole('button', { name: 'Look at it first' }).click();
    await page.getByText('4 readings of the core from 1 May 2027 to 4 May 2027').waitFor();
    await page.getByText('1 line cannot be used').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep this batch' }).click();
    await page.getByRole('heading', { level: 1, name: 'Blue notebook' }).waitFor();
    await page.goto(`${address}/seasons?year=2027`);
    await page.locator('.measure-table tbody').getByRole('link', { name: 'Blue notebook' }).waitFor();
    await page.setViewportSize({ width: 360, height: 740 });
    await page.goto(`${address}/seasons/earlier`);
    await page.getByLabel('What it is called').waitFor();
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360);
    if (shotsDir !== undefined) await page.screenshot({ path: `${shotsDir}/earlier-360.png`, fullPage: true });
    expect(complaints).toEqual([]);
    await close();
  });

  const looks: [string, string, (page: Page) => Promise<unknown>][] = [
    [
      'seasons',
      '/seasons?stage=bran&out=2030-yard-bran-1,2029-yard-bran-3&split=site',
      (page) => page.locator('.differences').first().waitFor(),
    ],
    ['each by itself', '/seasons?draw=apart', (page) => page.locator('.apart svg').first().waitFor()],
    ['like', '/seasons/like/running', (page) => page.locator('.closest').waitFor()],
  ];
  for (const [name, path, arrange] of looks) {
    // Opened at each width: what is drawn is drawn for the room there is.
    for (const width of [360, 1440]) {
      test(`${name}, light and dark at ${width} px: nothing for axe to report, nothing scrolls sideways`, async () => {
        const { page, complaints, close } = await open(path.replace('running', installation.runningId), {
          viewport: { width, height: 800 },
        });
        await arrange(page);
        await page.locator('.overlay path.curve-line, .apart path.curve-line').first().waitFor({ state: 'attached' });
        const onLook = async (_: number, colorScheme: string) => {
          if (shotsDir === undefined) return;
          const file = `${name.replaceAll(' ', '-')}-${width}-${colorScheme}`;
          await page.screenshot({ path: `${shotsDir}/${file}.png`, fullPage: true });
        };
        expect(await findingsInEveryLook(page, { widths: [width], onLook })).toEqual([]);
        expect(complaints).toEqual([]);
        await close();
      });
    }
  }
});
