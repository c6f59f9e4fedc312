/**
 * What the judge says, at work in a real browser: the day ahead, hands seen, water, readiness, why; limits, name, removal.
 */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { warningKinds } from '../../shared/warning.ts';
import { type OpenOptions, type OpenPage, openService, type Service } from './open-pages.ts';

let service: Service;
let opened: OpenPage | undefined;
beforeAll(async () => {
  service = await openService();
});
afterAll(() => service.close());
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

async function open(options: OpenOptions): Promise<OpenPage> {
  opened = await service.open(options);
  return opened;
}

describe('the day ahead', () => {
  test('is said in a sentence, in the chart’s words, in its key and in the table', async () => {
    const { page } = await open({ path: '/piles/barn-bed' });
    await page.getByText(/It reaches 50\s°C in about 3\sh \(13:00\), likely: 8 chances in 10\./).waitFor();
    await page.getByText(/In 6\sh the core is most likely at/).waitFor();
    const words = await page.getByRole('img', { name: /^Temperature in °C over time/ }).getAttribute('aria-label');
    expect(words).toMatch(/Ahead: In 6\sh the core is most likely at \d+/);
    await page.getByText('ahead: the core’s next 24 hours in eight of ten cases').waitFor();
    await page.getByRole('radio', { name: 'Table' }).check();
    const table = page.getByRole('region', { name: 'The day ahead as a table' });
    await table.getByRole('columnheader', { name: 'Most likely, °C' }).waitFor();
    expect(await table.getByRole('rowheader').count()).toBe(24);
  });

  test('is not shown where it is not known, nor in a span of the past', async () => {
    const { page } = await open({ path: '/piles/rice-bed' });
    await page.getByText(/Whether it will reach 50\s°C is not known yet\./).waitFor();
    await page.locator('canvas').first().waitFor();
    expect(await page.locator('.fan-swatch').count()).toBe(0);
    await page.goto(page.url().replace('rice-bed', 'barn-bed'));
    await page.locator('.fan-swatch').waitFor();
    await page.getByRole('radio', { name: 'Choose…' }).check();
    await page.getByLabel('To', { exact: true }).fill('2031-06-10T10:00');
    await page.getByRole('button', { name: 'Show it' }).click();
    await page.locator('.fan-swatch').waitFor({ state: 'detached' });
  });
});

describe('a hand seen in the curves', () => {
  test('is written down with its time when it was so', async () => {
    const here = await open({ path: '/piles/barn-bed' });
    await here.page.getByText('It looks as if it was turned at about Tue 10 Jun, 14:00. Was it?').waitFor();
    await here.page.getByRole('button', { name: 'Yes, write it down' }).click();
    await here.page.getByText('Was it?').waitFor({ state: 'detached' });
    expect(here.mock.asked).toContain(
      'POST /api/piles/barn-bed/acts {"kind":"turned","at":"2031-06-10T14:00:00.000Z"}',
    );
  });

  test('is asked about no more on this device when it was not', async () => {
    const { page, mock } = await open({ path: '/piles/barn-bed' });
    await page.getByRole('button', { name: /it was not turned/ }).click();
    await page.getByText('Was it?').waitFor({ state: 'detached' });
    await page.reload();
    await page.getByRole('button', { name: 'Turned' }).waitFor();
    expect(await page.getByText('Was it?').count()).toBe(0);
    expect(mock.asked.some((line) => line.includes('/acts'))).toBe(false);
  });
});

describe('water and readiness', () => {
  test('water is told with its doubt, never without the caution', async () => {
    const { page } = await open({ path: '/piles/wall-heap' });
    await page.getByText(/likely between 28.% and 38.%/).waitFor();
    await page.getByText(/Add about 28\sL and not more, which would bring it to 45\s%\./).waitFor();
    await page.getByText('Half of it first: about 14 L.').waitFor();
    await page.getByText('Water cannot be taken out again. This is a balance').waitFor();
  });

  test('a person says smell and look, and it stands there', async () => {
    const here = await open({ path: '/piles/wall-heap', remembered: { 'branhearth.prefs': '{"name":"M."}' } });
    const { page } = here;
    await page.getByText('Nobody has judged its smell and look yet.').waitFor();
    await page.getByText('Say how it smells and looks').click();
    await page.getByRole('group', { name: 'Its smell' }).getByRole('radio', { name: 'Good' }).check();
    await page.getByRole('group', { name: 'Its look' }).getByRole('radio', { name: 'Good' }).check();
    await page.getByRole('radio', { name: 'Yes' }).check();
    await page.getByRole('button', { name: 'Write it into the journal' }).click();
    await page.getByText('M.: smell good, look good, done.').waitFor();
    expect(here.mock.asked).toContain(
      'POST /api/piles/wall-heap/entries {"what":{"kind":"readiness","smell":"good","look":"good","ready":true},"by":"M."}',
    );
  });

  test('what smells or looks bad cannot be called done', async () => {
    const here = await open({ path: '/piles/wall-heap' });
    const { page } = here;
    await page.getByText('Say how it smells and looks').click();
    await page.getByRole('radio', { name: 'Yes' }).check();
    await page.getByRole('group', { name: 'Its smell' }).getByRole('radio', { name: 'Bad' }).check();
    await page.getByText('While smell or look is bad it is not done.').waitFor();
    expect(await page.getByRole('radio', { name: 'Yes' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Write it into the journal' }).click();
    await page.getByText('smell bad, look doubtful, not done yet.').waitFor();
  });

  test('where no entries are kept the question is left out', async () => {
    const { page } = await open({
      path: '/piles/wall-heap',
      farm: (farm) => {
        farm.entries = null;
      },
    });
    await page.getByText('The last word is yours').waitFor();
    await page.locator('canvas').first().waitFor();
    expect(await page.getByText('Say how it smells and looks').count()).toBe(0);
  });
});

describe('why it says so', () => {
  test('leads from a warning to its readings, rule, limits and what explains it', async () => {
    const { page, complaints } = await open({ path: '/piles/north-bed' });
    await page.getByRole('link', { name: 'Why it says so of Overheating, core' }).click();
    await page.getByRole('heading', { level: 1, name: 'Overheating' }).waitFor();
    const text = (await page.locator('main').textContent())?.replaceAll('\u00a0', ' ') ?? '';
    expect(text).toContain('The core is at 53.4 °C, above the 50 °C at which to act.');
    expect(text).toContain('Present when a probe in the pile passes 50 °C, until it is below 49 °C.');
    expect(text).toContain('common practice, no source');
    expect(text).toContain('It must be seen for 20 min before people are notified; it ends when');
    expect(text).toContain('Turning throws up mould spores');
    await page.getByRole('link', { name: 'overheating soon' }).click();
    await page.getByRole('heading', { level: 1, name: 'Overheating soon' }).waitFor();
    await page.getByText('explains it and holds it back').waitFor();
    await page.getByRole('link', { name: 'why it says so', exact: true }).click();
    await page.getByRole('heading', { level: 1, name: 'Why it says so' }).waitFor();
    expect(await page.getByRole('heading', { level: 3 }).count()).toBe(warningKinds.length);
    expect(complaints).toEqual([]);
  });

  test('an address of a kind nobody looks for shows nothing', async () => {
    const { page } = await open({ path: '/piles/north-bed/why/moonlight' });
    await page.getByRole('heading', { level: 1, name: 'There is no page at this address.' }).waitFor();
  });
});

describe('limits, name and removal', () => {
  test('any limit is changed, one out of order is told at its field', async () => {
    const { page, mock } = await open({ path: '/piles/north-bed' });
    await page.getByText('Change these for this batch').click();
    await page.getByLabel('Moisture to').fill('45');
    await page.getByRole('button', { name: 'Keep these limits' }).click();
    await page.getByText('Must be above “Moisture from”').waitFor();
    await page.getByLabel('Moisture to').fill('62');
    await page.getByLabel('Depth to').fill('30');
    await page.getByRole('button', { name: 'Keep these limits' }).click();
    await page.getByText('set for this batch').first().waitFor();
    expect(mock.asked).toContain('PATCH /api/piles/north-bed {"limits":{"moistureMaxFrac":0.62,"depthMaxM":0.3}}');
  });

  test('a pile takes another name', async () => {
    const { page } = await open({ path: '/piles/barn-bed' });
    await page.getByLabel('Name', { exact: true }).fill('Long bed');
    await page.getByRole('button', { name: 'Keep the name' }).click();
    await page.getByRole('heading', { level: 1, name: 'Long bed' }).waitFor();
  });

  test('a pile with a record is refused in words, one laid by mistake goes', async () => {
    const { page, mock } = await open({ path: '/piles/north-bed' });
    await page.getByText('Remove this pile').click();
    await page.getByRole('button', { name: 'Remove “North bran bed” now' }).click();
    await page.getByText('nothing may hang on it: it has an entry').waitFor();
    await page.goto(`${mock.url}/piles/lower-bed`);
    await page.getByText('Remove this pile').click();
    await page.getByRole('button', { name: 'Remove “Lower bed” now' }).click();
    await page.getByRole('heading', { level: 1, name: /^One of five piles/ }).waitFor();
  });

  test('a pile removed while its page is open says so', async () => {
    const { page, mock } = await open({ path: '/piles/barn-bed' });
    await page.locator('canvas').first().waitFor();
    mock.send('pile-gone', { id: 'barn-bed' });
    await page.getByRole('heading', { level: 1, name: '“Barn bran bed” has been removed.' }).waitFor();
  });
});

describe('claiming', () => {
  test('may count from another time than the start', async () => {
    const { page, mock } = await open({ path: '/probes' });
    await page.getByLabel('Where it sits').selectOption('edge');
    await page.getByLabel('Since when').fill('2031-06-11T07:30');
    await page.getByRole('button', { name: 'Claim it' }).click();
    await expect
      .poll(() => mock.asked)
      .toContain(
        'POST /api/probes/saltmere-yard/spare-7/claim {"pileId":"north-bed","position":"edge","from":"2031-06-11T07:30:00.000Z"}',
      );
  });
});
