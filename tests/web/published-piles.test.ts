/** What is published of the piles, switched on under Settings before a whole server. */
import { connectAsync } from 'mqtt';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pileStateSchema } from '../../shared/contracts/published.ts';
import { axeFindings } from '../helpers/axe.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

/** A folder to keep pictures in, for whoever wants to look. */
const pictures = process.env.PUBLISHED_PICTURES;

let pages: RealPages;
beforeAll(async () => {
  pages = await openRealPages();
  const post = (url: string, payload: object) => pages.one.app.inject({ method: 'POST', url, payload });
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', { id: 'shed', site: 'saltmere-yard', name: 'Shed', stage: 'bran' });
});
afterAll(() => pages.close());

for (const width of [390, 1440]) {
  test(`Settings at ${width} px publish the piles, and take them back`, async () => {
    const client = await connectAsync(pages.one.installation.ingest.url);
    const states: string[] = [];
    client.on('message', (_topic, payload) => states.push(payload.toString()));
    await client.subscribeAsync('piles-state/#', { qos: 1 });
    const context = await pages.browser.newContext({ viewport: { width, height: 844 } });
    const page = await context.newPage();
    page.setDefaultTimeout(patienceMs);
    await page.goto(`${pages.url}/settings`);
    const choice = page.getByRole('group', { name: 'States and events' });
    await choice.getByLabel('Not published').waitFor();
    // It is shown as chosen once the server has kept it.
    const choose = async (words: string) => {
      const option = choice.getByLabel(words, { exact: true });
      await option.click();
      await until(`${words} is kept`, async () => ((await option.isChecked()) ? true : undefined));
    };
    expect(await choice.getByLabel('Not published').isChecked()).toBe(true);
    await choose('Published');
    const state = await until('the state', () => states.find((text) => text !== ''));
    expect(pileStateSchema.parse(JSON.parse(state))).toMatchObject({ id: 'shed', name: 'Shed' });
    expect(await axeFindings(page)).toEqual([]);
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
    ).toBeLessThanOrEqual(0);
    if (pictures) await page.screenshot({ path: `${pictures}/published-${width}.png`, fullPage: true });
    await choose('Not published');
    await until('it is taken back', () => (states.at(-1) === '' ? true : undefined));
    await context.close();
    await client.endAsync();
  });
}
