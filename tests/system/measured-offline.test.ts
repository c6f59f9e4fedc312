/**
 * A pile that was too hot when its probe fell silent, on a phone that is out of reach: the warning leads to the entry of that place,
 * the entry waits, is sent later, is judged by when it was measured, and answers the warning that stood without sight.
 */
import { connectAsync } from 'mqtt';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { type BreakingLine, openBreakingLine } from '../helpers/breaking-line.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { keepPicture } from '../helpers/spawned-page.ts';
import { patienceMs, until } from '../helpers/until.ts';

const minuteMs = 60_000;
const startMs = Date.parse('2031-06-02T08:00:00Z');
/** A minute of the server is a second here. */
const speed = 60;

let anchorMs: number;
let installation: SpawnedInstallation;
let line: BreakingLine;
let browser: Browser;
let page: Page;
let remove: () => Promise<void>;

beforeAll(async () => {
  if (!hasChromium) return;
  const folder = await makeDataDir();
  remove = folder.remove;
  anchorMs = Date.now();
  installation = await spawnInstallation(folder.dataDir, {
    environment: { CLOCK: JSON.stringify({ startMs, anchorMs, speed }) },
  });
  line = await openBreakingLine(installation.pagesUrl);
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'UTC' });
  page.setDefaultTimeout(patienceMs);
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await line.close();
  await installation.stop();
  await remove();
});

const serverMs = () => startMs + (Date.now() - anchorMs) * speed;
const post = async (path: string, body: object) => {
  const answer = await fetch(installation.pagesUrl + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
};
const pile = async (): Promise<PileDetail> =>
  pileDetailSchema.parse(await (await fetch(`${installation.pagesUrl}/api/piles/cart-shed`)).json());
const alarm = async (kind: string) => (await pile()).alarms.find((one) => one.kind === kind);

/** Every ten minutes for so long, the last just now. */
async function sayHot(hours: number): Promise<void> {
  const probe = await connectAsync(installation.mqttUrl);
  const endMs = serverMs();
  for (let atMs = endMs - hours * 60 * minuteMs; atMs <= endMs; atMs += 10 * minuteMs) {
    const temperature = 53 + 0.0625 * ((atMs / minuteMs) % 7);
    const payload = JSON.stringify({ temperature, time: new Date(atMs).toISOString() });
    await probe.publishAsync('piles/saltmere-yard/p1/reading', payload, { qos: 1 });
  }
  await probe.endAsync();
}

test.runIf(hasChromium)(
  'what is measured out of reach is sent later, judged, and answers the warning that stood without sight',
  async () => {
    await post('/api/sites', { name: 'Saltmere Yard' });
    await post('/api/piles', {
      ...{ site: 'saltmere-yard', id: 'cart-shed', name: 'Cart shed', stage: 'bran' },
      startedAt: new Date(startMs - 30 * 60 * minuteMs).toISOString(),
    });
    await sayHot(8);
    await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'cart-shed', position: 'core' });
    await until('too hot', async () => ((await alarm('overheating')) ? true : undefined));
    await until('a silent probe', async () => ((await alarm('probe-silent')) ? true : undefined), 120_000);

    await page.goto(`${line.url}/piles/cart-shed`);
    const link = page.getByRole('link', { name: 'Write down what you measure' }).first();
    await link.waitFor();
    await keepPicture(page, 'silent');
    expect(await link.getAttribute('href')).toBe('/piles/cart-shed/journal?write=measured&at=core');
    await link.click();
    const form = page.getByRole('form', { name: /^Measured/ });
    await form.waitFor();

    line.setDown(true);
    const fromMs = serverMs();
    await form.getByLabel(/^Temperature/).fill('43,5');
    await keepPicture(page, 'form');
    await form.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText('1 entry waits on this device.').waitFor();
    const toMs = serverMs();
    await keepPicture(page, 'waits');
    expect((await pile()).positions.core?.byHand).toBeUndefined();

    line.setDown(false);
    // The page tries again by itself once the line is back; whoever is quicker.
    await page
      .getByRole('button', { name: 'Send now' })
      .click({ timeout: 3_000 })
      .catch(() => undefined);
    await page.getByText(/waits on this device/).waitFor({ state: 'detached' });
    const { byHand } =
      (await until(
        'the measurement',
        async () => (await pile()).positions.core?.byHand && (await pile()).positions.core,
      )) ?? {};
    expect(byHand?.temperatureC).toBe(43.5);
    // When it was written, not when it was sent; the page's clock follows the server's to some seconds.
    const atMs = Date.parse(byHand?.at ?? '');
    expect([atMs > fromMs - 5 * minuteMs, atMs < toMs + 5 * minuteMs]).toEqual([true, true]);
    await until(
      'the answer to the warning',
      async () => ((await alarm('overheating'))?.stands === true ? undefined : true),
      120_000,
    );
    expect((await alarm('probe-silent'))?.stands).toBe(true);
    await page.goto(`${line.url}/piles/cart-shed`);
    await page
      .getByText(/measured by hand/)
      .first()
      .waitFor();
    await keepPicture(page, 'answered');
  },
  300_000,
);
