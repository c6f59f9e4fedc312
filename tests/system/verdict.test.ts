/** How a batch came out, on a phone beside the pile: asked as it ends, in two taps, out of reach too, and corrected. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { batchesAnswerSchema } from '../../shared/contracts/lineage.ts';
import { axeFindings } from '../helpers/axe.ts';
import { type BreakingLine, openBreakingLine } from '../helpers/breaking-line.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs } from '../helpers/until.ts';

let installation: SpawnedInstallation;
let line: BreakingLine;
let browser: Browser;
let phone: BrowserContext;
let remove: () => Promise<void>;
/** Folder for screenshots to be looked at; none are made without it. */
const shotsDir = process.env.BRANHEARTH_SHOTS;

const dayMs = 86_400_000;
const ago = (days: number) => new Date(Date.now() - days * dayMs).toISOString();

async function post(path: string, body: object): Promise<void> {
  const answer = await fetch(installation.pagesUrl + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!answer.ok) throw new Error(await answer.text());
}

beforeAll(async () => {
  if (!hasChromium) return;
  const folder = await makeDataDir();
  remove = folder.remove;
  installation = await spawnInstallation(folder.dataDir);
  line = await openBreakingLine(installation.pagesUrl);
  browser = await launchBrowser();
  phone = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'UTC' });
  await post('/api/sites', { name: 'Saltmere Yard', id: 'saltmere-yard' });
  const pile = { site: 'saltmere-yard', stage: 'bran', startedAt: ago(9) };
  await post('/api/piles', { ...pile, id: 'cart-shed', name: 'Cart shed' });
  await post('/api/piles/cart-shed/entries', { what: { kind: 'smell', smells: ['earthy'] }, at: ago(1) });
  await post('/api/piles', { ...pile, id: 'wall-bed', name: 'Wall bed' });
  await post('/api/piles/wall-bed/finish', {});
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await line.close();
  await installation.stop();
  await remove();
});

async function open(path: string): Promise<Page> {
  const page = await phone.newPage();
  page.setDefaultTimeout(patienceMs);
  await page.goto(line.url + path);
  return page;
}

async function batchOf(pileId: string) {
  const answer = await fetch(`${installation.pagesUrl}/api/batches?pile=${pileId}&state=ended`);
  return batchesAnswerSchema.parse(await answer.json()).batches[0];
}

async function expectNothingForAxe(page: Page): Promise<void> {
  expect(await axeFindings(page)).toEqual([]);
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
}

test.runIf(hasChromium)(
  'a batch that is finished is judged in two taps, by what was smelt, and corrected',
  async () => {
    const page = await open('/piles/cart-shed');
    await page.getByRole('button', { name: 'Finish the batch' }).click();
    const part = page.getByRole('region', { name: 'How did it come out?' });
    await part.getByRole('button', { name: /^Good/ }).click();
    await part.getByText('Written down: Smells earthy.').waitFor();
    if (shotsDir !== undefined) await page.screenshot({ path: `${shotsDir}/verdict-390.png`, fullPage: true });
    await expectNothingForAxe(page);
    await part.getByRole('button', { name: /^Smelt good/ }).click();
    await part.getByText('Judged good: it smelt good.').waitFor();
    await part.getByText(/^Said/).waitFor();
    expect(await batchOf('cart-shed')).toMatchObject({ verdict: { verdict: 'good', why: 'smelt-good' } });

    await part.getByRole('button', { name: 'Correct the verdict' }).click();
    await part.getByRole('button', { name: /^Usable/ }).click();
    await part.getByLabel('Or in your own words').fill('Half of it went to the goats.');
    await part.getByRole('button', { name: 'Keep this verdict' }).click();
    await part.getByText('Half of it went to the goats.').waitFor();
    expect(await batchOf('cart-shed')).toMatchObject({
      verdict: { verdict: 'usable', why: null, note: 'Half of it went to the goats.' },
    });

    await page.goto(`${line.url}/batches`);
    await page.getByRole('listitem').filter({ hasText: 'Usable' }).waitFor();
    await page.getByRole('link', { name: 'not judged' }).waitFor();
    await expectNothingForAxe(page);
    await page.close();
  },
);

test.runIf(hasChromium)('out of reach the verdict waits on the phone, and arrives once the line is back', async () => {
  const page = await open('/piles/wall-bed');
  const part = page.getByRole('region', { name: 'How did it come out?' });
  await part.getByRole('button', { name: /^Poor/ }).waitFor();
  line.setDown(true);
  await part.getByRole('button', { name: /^Poor/ }).click();
  await part.getByRole('button', { name: 'Too wet' }).click();
  await part.getByText('This verdict waits on this device').waitFor();
  expect(await batchOf('wall-bed')).toMatchObject({ verdict: null });
  line.setDown(false);
  // The page tries again by itself; whoever is quicker.
  await page
    .getByRole('button', { name: 'Send now' })
    .click({ timeout: 2_000 })
    .catch(() => undefined);
  await part.getByText(/^Said/).waitFor();
  expect(await batchOf('wall-bed')).toMatchObject({ verdict: { verdict: 'poor', why: 'too-wet' } });
  await page.close();
});
