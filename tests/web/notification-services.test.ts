/** Other services under “My notifications”, on a phone, before a real server and a double of ntfy. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../server/app/app.ts';
import { axeFindings } from '../helpers/axe.ts';
import { type BuiltPages, buildPages, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeCertificate, type Receiver, startReceiver } from '../helpers/https-server.ts';
import { patienceMs } from '../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from '../server/notify/farm.ts';

describe.skipIf(!hasChromium)('other services, on a phone', () => {
  let receiver: Receiver;
  let farm: NotifyFarm;
  let pages: BuiltPages;
  let browser: Browser;
  let page: Page;
  let close: () => Promise<void>;
  beforeAll(async () => {
    const certificate = makeCertificate('127.0.0.1');
    [receiver, pages, browser] = await Promise.all([startReceiver(certificate), buildPages(), launchBrowser()]);
    farm = await openNotifyFarm({}, { trust: certificate.cert });
    await farm.one.installation.delivery.settings.setAllowed([`127.0.0.1:${receiver.port}`]);
    const app = await buildApp(farm.one.installation, { pagesDir: pages.dir });
    const url = await app.listen({ port: 0, host: '127.0.0.1' });
    close = () => app.close();
    page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    page.setDefaultTimeout(patienceMs);
    await page.goto(`${url}/notifications`);
  });
  afterAll(async () => {
    await browser?.close();
    await close?.();
    await farm?.close();
    await receiver?.close();
    await pages?.remove();
  });

  async function isClean(name: string) {
    for (const width of [1440, 390]) {
      await page.setViewportSize({ width, height: 844 });
      expect(await axeFindings(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      const folder = process.env.BRANHEARTH_PICTURES;
      if (folder) await page.screenshot({ path: `${folder}/${name}-${width}.png`, fullPage: true });
    }
  }

  test('ntfy is added, says what is wrong with a field, sends a test, keeps its secret, and is removed', async () => {
    await page.getByRole('button', { name: 'Add ntfy' }).click();
    const ntfy = page.getByRole('group', { name: 'ntfy' });
    expect(await ntfy.getByLabel('Server', { exact: true }).inputValue()).toBe('https://ntfy.sh');
    await ntfy.getByLabel('Server', { exact: true }).fill(`https://127.0.0.1:${receiver.port}`);
    await ntfy.getByLabel('Topic').fill('not a topic');
    await ntfy.getByRole('button', { name: 'Save ntfy' }).click();
    await ntfy.getByText('Must be 1-64 characters, each a letter', { exact: false }).first().waitFor();
    await isClean('ntfy wrong');
    await ntfy.getByLabel('Topic').fill('saltmere-Xq7');
    await page.keyboard.press('Enter');
    await page.getByText('go out by ntfy').waitFor();
    expect(await ntfy.getByLabel('Topic').inputValue()).toBe('');
    await ntfy.getByText('Saved, and not shown again.', { exact: false }).waitFor();
    await ntfy.getByRole('button', { name: 'Send a test by ntfy' }).click();
    await ntfy.getByText('Sent. Look whether it has arrived.').waitFor();
    expect(JSON.parse(receiver.got[0]?.body.toString() ?? '')).toMatchObject({ topic: 'saltmere-Xq7' });
    expect(await page.content()).not.toContain('saltmere-Xq7');
    receiver.answer = (_got, response) => void response.writeHead(403).end('{"http":403,"error":"forbidden"}');
    await ntfy.getByRole('button', { name: 'Send a test by ntfy' }).click();
    await ntfy.getByText('ntfy did not accept what was filled in (HTTP 403: forbidden)', { exact: false }).waitFor();
    await isClean('ntfy kept');
    await ntfy.getByRole('button', { name: 'Remove ntfy' }).click();
    await page.getByRole('button', { name: 'Add ntfy' }).waitFor();
    await page.getByText('reach nobody yet').waitFor();
  });
});
