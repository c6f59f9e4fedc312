/**
 * Half-written entries are kept on the device; what was just written down can be taken back, in reach and out of it.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { entriesAnswerSchema } from '../../shared/contracts/journal.ts';
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

beforeAll(async () => {
  if (!hasChromium) return;
  const folder = await makeDataDir();
  remove = folder.remove;
  installation = await spawnInstallation(folder.dataDir);
  line = await openBreakingLine(installation.pagesUrl);
  browser = await launchBrowser();
  phone = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'UTC' });
  const post = (path: string, body: object) =>
    fetch(installation.pagesUrl + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  await post('/api/sites', { name: 'Saltmere Yard', id: 'saltmere-yard' });
  for (const [id, name] of [
    ['cart-shed', 'Cart shed'],
    ['wall-bed', 'Wall bed'],
  ])
    await post('/api/piles', { site: 'saltmere-yard', id, name, stage: 'bran' });
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await line.close();
  await installation.stop();
  await remove();
});

async function open(pileId = 'cart-shed'): Promise<Page> {
  const page = await phone.newPage();
  page.setDefaultTimeout(patienceMs);
  await page.goto(`${line.url}/piles/${pileId}/journal`);
  await page.getByRole('button', { name: 'Watered' }).waitFor();
  return page;
}

async function entries() {
  const answer = await fetch(`${installation.pagesUrl}/api/piles/cart-shed/entries?withdrawn=yes`);
  return entriesAnswerSchema.parse(await answer.json()).entries;
}

const kindButton = (page: Page, name: RegExp) => page.getByRole('button', { name });
const writeDown = (page: Page) => page.getByRole('button', { name: 'Write it down' }).click();
const focused = (page: Page) => page.evaluate('document.activeElement?.textContent');

test.runIf(hasChromium)(
  'what is half written outlasts another kind, its page and another pile, until it is written down',
  async () => {
    const page = await open();
    await kindButton(page, /^Watered/).click();
    await page.getByLabel('Water given').fill('12,5');
    await page.getByText('A draft, kept on this device').waitFor();
    await kindButton(page, /^Note/).click();
    await page.getByRole('textbox', { name: 'Note' }).fill('The mat was torn');
    await kindButton(page, /^Watered/).click();
    expect(await page.getByLabel('Water given').inputValue()).toBe('12,5');

    await page.close();
    const other = await open('wall-bed');
    await kindButton(other, /^Watered/).click();
    expect(await other.getByLabel('Water given').inputValue()).toBe('');
    await other.close();

    const again = await open();
    await kindButton(again, /^Note draft$/).click();
    expect(await again.getByRole('textbox', { name: 'Note' }).inputValue()).toBe('The mat was torn');
    await writeDown(again);
    await again.getByText('Note: written down.').waitFor();
    await kindButton(again, /^Note$/).click();
    expect(await again.getByRole('textbox', { name: 'Note' }).inputValue()).toBe('');
    await again.close();
  },
);

test.runIf(hasChromium)('a draft is gone once it is thrown away, and is said again in the units of now', async () => {
  const page = await open();
  await kindButton(page, /^Measured/).click();
  await page.getByLabel('Temperature').fill('41');
  await page.evaluate(`localStorage.setItem('branhearth.prefs', JSON.stringify({ unit: 'F' }))`);
  await page.reload();
  await kindButton(page, /^Measured draft$/).click();
  expect(await page.getByLabel('Temperature').inputValue()).toBe('105.8');
  await page.evaluate(`localStorage.removeItem('branhearth.prefs')`);

  await page.getByRole('button', { name: 'Throw it away' }).click();
  await page.getByRole('button', { name: 'Throw it away' }).click();
  await kindButton(page, /^Measured$/).waitFor();
  await page.reload();
  await kindButton(page, /^Measured$/).click();
  expect(await page.getByLabel('Temperature').inputValue()).toBe('');
  await page.close();
});

test.runIf(hasChromium)(
  'after writing down the focus is back at the kind; one press takes the entry back, struck out on the server',
  async () => {
    const page = await open();
    await kindButton(page, /^Turned$/).click();
    await writeDown(page);
    await page.getByText('Turned: written down.').waitFor();
    await expect.poll(() => focused(page)).toBe('Turned');
    const undo = page.getByRole('button', { name: 'Undo' });
    const box = await undo.boundingBox();
    expect(box && box.y >= 0 && box.y + box.height <= 844).toBe(true);
    const turned = async () => (await entries()).find(({ what }) => what.kind === 'turned');
    await expect.poll(turned).toMatchObject({ withdrawn: false });
    await undo.click();
    await page.getByText('Turned: taken back.').waitFor();
    await expect.poll(() => focused(page)).toBe('Turned');
    await expect.poll(turned).toMatchObject({ withdrawn: true, version: 2 });
    await page.close();
  },
);

test.runIf(hasChromium)('what is taken back out of reach never arrives', async () => {
  const page = await open();
  line.setDown(true);
  await kindButton(page, /^Covered$/).click();
  await writeDown(page);
  await page.getByText('1 entry waits on this device.').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText(/waits? on this device/).waitFor({ state: 'detached' });
  await page.close();
  line.setDown(false);
  const again = await open();
  await kindButton(again, /^Uncovered$/).click();
  await writeDown(again);
  await expect.poll(async () => (await entries()).map(({ what }) => what.kind)).toContain('uncovered');
  expect((await entries()).map(({ what }) => what.kind)).not.toContain('covered');
  await again.close();
});
