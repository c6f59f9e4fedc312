/**
 * The pages at work in a real browser, before a stand-in server that checks every answer against its contract.
 */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import { pileSummarySchema } from '../../shared/contracts/piles.ts';
import type { MockFarm } from '../helpers/mock-farm.ts';
import { until } from '../helpers/until.ts';
import { emptyFarm, farmNowMs, type OpenOptions, type OpenPage, openService, type Service } from './open-pages.ts';

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

const summaryOf = (pile: PileDetail) => pileSummarySchema.parse(pile);
const pileOf = ({ mock }: OpenPage, id: string): PileDetail => {
  const pile = mock.farm.piles.find((one) => one.id === id);
  if (!pile) throw new Error(`No pile ${id}`);
  return pile;
};

describe('home', () => {
  test('the most pressing pile stands first, and the opening sentence is no calmer than it', async () => {
    const { page, complaints } = await open({});
    await page.getByRole('heading', { level: 1, name: 'One of six piles is in danger. See to it first.' }).waitFor();
    expect(await page.getByRole('heading', { level: 3 }).allTextContents()).toEqual([
      'Old stack behind the shed',
      'North bran bed',
      'Barn bran bed',
      'Rice bran bed',
      'Soil heap by the wall',
      'Lower bed',
    ]);
    // Nothing is refused by the content security policy, and nothing else is complained about.
    expect(complaints).toEqual([]);
  });

  test('a live event changes the sentence without a reload, and a new warning is said aloud', async () => {
    const here = await open({});
    await here.page.getByText('It is working well').waitFor();
    const barn = pileOf(here, 'barn-bed');
    barn.condition = 'It is too hot: the core is at 55 °C, and 50 °C is the limit.';
    barn.tone = 'act';
    barn.alarms = [
      {
        ...(pileOf(here, 'north-bed').alarms[0] as PileDetail['alarms'][number]),
        id: 'fresh',
        todo: 'Turn it now.',
      },
    ];
    here.mock.send('pile', summaryOf(barn));
    await here.page.getByText('the core is at 55').waitFor();
    expect(await here.page.getByRole('log', { name: 'New warnings' }).textContent()).toBe(
      'New warning at Barn bran bed: Overheating, core. Turn it now.',
    );
  });

  test('when the line is cut the page says since when, fetches instead, and comes back by itself', async () => {
    const here = await open({});
    await here.page.getByText('live', { exact: true }).waitFor();
    here.mock.cutLive(true);
    await here.page.getByText(/not live since \d/).waitFor();
    pileOf(here, 'barn-bed').condition = 'It is resting.';
    await here.page.getByText('It is resting.').waitFor();
    here.mock.cutLive(false);
    await here.page.getByText('live', { exact: true }).waitFor();
  });

  test('a pile that goes and a probe that comes are seen', async () => {
    const here = await open({});
    await here.page.getByText('A probe is talking that belongs to no pile yet.').waitFor();
    here.mock.send('pile-gone', { id: 'lower-bed' });
    await here.page.getByRole('heading', { name: 'Lower bed' }).waitFor({ state: 'detached' });
    const spare = here.mock.farm.probes.at(-1);
    const another = spare && { ...spare, probe: 'spare-8' };
    if (another) {
      here.mock.send('probe', another);
      here.mock.send('probes', { all: here.mock.farm.probes.length + 1, unclaimed: 2, isFull: false });
    }
    await here.page.getByText('2 probes are talking that belong to no pile yet.').waitFor();
  });

  test('ages are told by the clock of the server, which may run fast', async () => {
    const here = await open({ speed: 600 });
    await here.page.getByText('live at 600×').waitFor();
    // The last reading was a minute old at the start; ten server minutes pass in a second.
    await here.page
      .getByText(/Last reading ([2-9]\d min|\d+ h) ago/)
      .first()
      .waitFor();
  });

  test('a mound says in words what it shows, silence included', async () => {
    const { page } = await open({});
    const words = await page.getByRole('img', { name: /core silent/ }).getAttribute('aria-label');
    expect(words).toBe(
      'Section of the pile: top 35.0 °C, humidity 95 %; core silent for 3 h, was 43.9 °C; base silent for 5 h, was 33.2 °C; air 18.8 °C, humidity 46 %'
        .replaceAll(' °C', '\u00a0°C')
        .replaceAll(' %', '\u00a0%'),
    );
  });
});

describe('an empty start', () => {
  test('leads from nothing to a pile with a claimed probe', async () => {
    const here = await open({ farm: emptyFarm });
    const { page, mock } = here;
    await page.getByRole('heading', { level: 1, name: 'No pile is watched yet.' }).waitFor();
    await page.getByRole('radio', { name: 'A sensor that already sends' }).click();
    await page.getByText('The broker answers this machine only').waitFor();
    await page.getByText('Nothing has reached the broker yet.').waitFor();

    await page.getByLabel('Name of the place').fill('Saltmere Yard');
    await page.getByLabel('Name of the pile').fill('First bed');
    // What is no number is refused beside its field, in the fold too, and never dropped.
    await page.getByText('More about the batch').click();
    await page.getByLabel('Mass as laid').fill('a barrow');
    await page.getByLabel('Depth').fill('thirty');
    await page.getByText('More about the batch').click();
    await page.getByRole('button', { name: 'Lay the pile' }).click();
    await page.getByText('Nothing was kept').waitFor();
    expect(await page.getByText('This is not a number. Write one, such as 12.5.').count()).toBe(2);
    expect(await page.getByLabel('Mass as laid').getAttribute('aria-invalid')).toBe('true');
    expect(mock.asked.filter((one) => one.startsWith('POST /api/piles'))).toEqual([]);
    await page.getByLabel('Mass as laid').fill('');
    await page.getByLabel('Depth').fill('25');
    await page.getByRole('button', { name: 'Lay the pile' }).click();
    await page.getByRole('heading', { level: 1, name: 'First bed' }).waitFor();
    expect(mock.asked).toContain(
      'POST /api/piles {"site":"saltmere-yard","name":"First bed","stage":"bran","recipe":{"depthM":0.25}}',
    );

    const probe = {
      site: 'saltmere-yard',
      probe: 'probe-1',
      claim: null,
      last: { temperatureC: 24.5 },
      lastAt: new Date(farmNowMs).toISOString(),
      batteryV: null,
      online: null,
      temperatureOffsetC: 0,
    };
    mock.farm.probes.push(probe);
    mock.send('probe', probe);
    mock.send('probes', { all: 1, unclaimed: 1, isFull: false });
    await page.getByRole('link', { name: 'Claim one for this pile' }).click();
    await page.getByRole('button', { name: 'Claim it' }).click();
    await page.getByRole('heading', { level: 2, name: 'First bed' }).waitFor();
    expect(mock.asked).toContain(
      'POST /api/probes/saltmere-yard/probe-1/claim {"pileId":"first-bed","position":"core"}',
    );
  });

  test('a refusal is told in words and marks its field', async () => {
    const { page } = await open({ path: '/piles/new' });
    await page.getByLabel('Name of the pile').fill('Barn bed');
    await page.getByRole('button', { name: 'Lay the pile' }).click();
    await page.getByRole('alert').getByText('A pile of that name lies here already').waitFor();
    const field = page.getByLabel('Name of the pile');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(
      await field.evaluate((one) => document.getElementById(one.getAttribute('aria-describedby') ?? '')?.textContent),
    ).toBe('is taken');
  });
});

describe('a pile', () => {
  test('a warning is acknowledged with the name of who did it', async () => {
    const here = await open({ path: '/piles/north-bed', remembered: { 'branhearth.prefs': '{"name":"M."}' } });
    await here.page.getByRole('button', { name: 'Acknowledge' }).click();
    await here.page.getByText(/warning, acknowledged, since/).waitFor();
    expect(here.mock.asked).toContain('POST /api/alarms/a1/acknowledge {"by":"M."}');
    await here.page.getByText('is hidden while “Overheating, core” stands, which explains it.').waitFor();
  });

  test('a warning is shelved for a time and taken off again', async () => {
    const here = await open({ path: '/piles/wall-heap' });
    await here.page.getByRole('button', { name: 'Shelve…' }).click();
    await here.page.getByLabel('Shelve for').selectOption('480');
    await here.page.getByRole('button', { name: 'Shelve', exact: true }).click();
    await here.page.getByText('shelved until 18:00, since').waitFor();
    expect(await here.page.getByText('No warning stands.').count()).toBe(0);
    expect(here.mock.asked).toContain('POST /api/alarms/a5/shelve {"minutes":480}');
    await here.page.getByRole('button', { name: 'Unshelve' }).click();
    await here.page.getByText('warning, unacknowledged').waitFor();
  });

  test('what happened to a warning is told on request', async () => {
    const { page } = await open({ path: '/piles/wall-heap' });
    await page.getByText('What happened to this warning').click();
    await page.getByText('normal → acknowledged: acknowledged').waitFor();
    await page.getByText('Ada, by e-mail (ada@saltmere.example): sent', { exact: false }).waitFor();
    await page.getByText('after 2 attempts', { exact: false }).waitFor();
  });

  test('a watering is written down in three taps and its litres', async () => {
    const here = await open({ path: '/piles/wall-heap' });
    await here.page.getByRole('button', { name: 'Watered' }).click();
    await here.page.getByLabel('Water given').fill('12,5');
    await here.page.getByRole('button', { name: 'Write it down' }).click();
    await here.page.getByText('Watered, 12.5 L', { exact: true }).waitFor();
    // It stands on the page at once and is sent behind that.
    const sent = await until('the entry to be sent', () => {
      const asked = here.mock.asked.filter((one) => one.startsWith('POST /api/entries '));
      return asked.length > 0 ? asked : undefined;
    });
    expect(sent).toHaveLength(1);
    expect(sent[0]).toContain('"pileId":"wall-heap"');
    expect(sent[0]).toContain('"what":{"kind":"watered","amountL":12.5}');
  });

  test('rain is written down once for every bed of its site, unless somebody says otherwise', async () => {
    const here = await open({ path: '/piles/wall-heap' });
    const rained = () => here.mock.asked.filter((one) => one.includes('"kind":"rained"')).join(' ');
    await here.page.getByRole('button', { name: 'Rain', exact: true }).click();
    await here.page.getByLabel('On the gauge since it was last read').fill('7');
    await here.page.getByLabel('Write it down for the other beds here too: Rice bran bed').waitFor();
    await here.page.getByRole('button', { name: 'Write it down' }).click();
    await until('rain on both beds', () => (/rice-bed/.test(rained()) && /wall-heap/.test(rained())) || undefined);
    expect(rained()).toContain('"what":{"kind":"rained","rainMm":7}');
    expect(rained()).not.toContain('north-bed');

    await here.page.getByRole('button', { name: 'Rain', exact: true }).click();
    await here.page.getByLabel('On the gauge since it was last read').fill('3');
    await here.page.getByLabel('Write it down for the other beds here too').uncheck();
    await here.page.getByRole('button', { name: 'Write it down' }).click();
    await until('rain on this bed', () => /"rainMm":3/.test(rained()) || undefined);
    expect(rained().match(/"rainMm":3/g)).toHaveLength(1);
  });

  test('whoever is about to open a hot pile is cautioned first', async () => {
    const { page } = await open({ path: '/piles/old-stack' });
    await page.getByRole('button', { name: 'Turned' }).click();
    await page.getByText('a close-fitting dust mask').first().waitFor();
    await page.getByText('self-heating is serious: measure every two hours').waitFor();
  });

  test('the table holds the data of the charts', async () => {
    const { page } = await open({ path: '/piles/north-bed' });
    const words = await page
      .getByRole('img', { name: /^Temperature in °C over time.*Core from/ })
      .getAttribute('aria-label');
    expect(words).toMatch(/Core from .* highest on .*, last 5\d\.\d/);
    await page.getByRole('radio', { name: 'Table' }).check();
    const first = page.getByRole('row').nth(1);
    const last = /Core .*?last ([\d.]+)/.exec(words ?? '')?.[1] ?? 'none';
    expect(await first.getByRole('cell').first().textContent()).toContain(last);
  });

  test.each([
    ['/', 360],
    ['/', 1440],
    ['/piles/north-bed', 360],
    ['/piles/north-bed', 1440],
  ])('the numbers beside a mound stand clear of the places they belong to (%s, %d px)', async (path, width) => {
    for (const unit of ['C', 'F']) {
      const { page } = await open({
        path,
        remembered: { 'branhearth.prefs': JSON.stringify({ unit }) },
        browser: { viewport: { width, height: 740 } },
      });
      await page.locator('.mound-number').first().waitFor();
      const gaps = await page.locator('.mound-labels > g').evaluateAll((labels) =>
        labels.map((label) => {
          const [place, number] = ['.mound-place', '.mound-number'].map((name) =>
            label.querySelector(name)?.getBoundingClientRect(),
          );
          return Math.floor((number?.left ?? 0) - (place?.right ?? 0));
        }),
      );
      expect(gaps.length).toBeGreaterThan(2);
      expect([unit, Math.min(...gaps)]).toEqual([unit, expect.toSatisfy((gap: number) => gap >= 6)]);
    }
  });

  test('the charts ask for the time of the server, also when its clock is heard of last', async () => {
    const { page } = await open({ path: '/' });
    await page.route('**/api/health', async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 1_500));
      await route.continue();
    });
    const spans: number[] = [];
    page.on('request', (request) => {
      const to = new URL(request.url()).searchParams.get('to');
      if (request.url().includes('/series?') && to) spans.push(Date.parse(to));
    });
    await page.goto(`${new URL(page.url()).origin}/piles/north-bed`);
    await page.getByRole('img', { name: /^Temperature in °C over time.*Core from/ }).waitFor();
    expect(Math.abs((spans.at(-1) ?? 0) - farmNowMs)).toBeLessThan(60_000);
  });

  test('the span asked for is the span chosen', async () => {
    const here = await open({ path: '/piles/north-bed' });
    await here.page.locator('canvas').first().waitFor();
    const [requested] = await Promise.all([
      here.page.waitForRequest((request) => request.url().includes('/series?')),
      here.page.getByRole('radio', { name: 'Last day' }).check(),
    ]);
    const query = new URL(requested.url()).searchParams;
    const lengthMs = Date.parse(query.get('to') ?? '') - Date.parse(query.get('from') ?? '');
    expect(Math.abs(lengthMs - 86_400_000)).toBeLessThanOrEqual(2);
  });

  test('finishing asks for smell and look, and the next batch can be laid', async () => {
    const here = await open({ path: '/piles/north-bed' });
    await here.page.getByText('Only you can tell that it is ready').waitFor();
    await here.page.getByLabel('How it came out').fill('Sweet, white all through.');
    await here.page.getByRole('button', { name: 'Finish the batch' }).click();
    await here.page.getByRole('button', { name: 'Lay the batch' }).click();
    await here.page.getByText('Only you can tell that it is ready').waitFor();
    expect(here.mock.asked).toContain('POST /api/piles/north-bed/finish {"outcome":"Sweet, white all through."}');
  });

  test('an unknown pile is said to be unknown', async () => {
    const { page } = await open({ path: '/piles/nothing' });
    await page.getByRole('heading', { level: 1, name: 'No pile lies at this address.' }).waitFor();
  });
});

describe('what a person prefers', () => {
  test('°F holds on the page of a pile, in its sentences, numbers, limits and charts, and is remembered', async () => {
    const { page } = await open({ path: '/settings' });
    await page.getByRole('radio', { name: '°F' }).check();
    await page.getByRole('link', { name: 'Piles' }).click();
    await page.getByText('It is too hot: the core is at 128.1').waitFor();
    await page.reload();
    await page.getByRole('link', { name: 'North bran bed' }).click();
    await page.getByRole('img', { name: /^Temperature in °F over time/ }).waitFor();
    const text = await page.locator('main').textContent();
    expect(text).toContain('95 to 113\u00a0°F');
    expect(text).not.toContain('°C');
  });

  test('dark stays dark from the first paint on', async () => {
    const { page } = await open({ path: '/settings', browser: { colorScheme: 'light' } });
    await page.getByRole('radio', { name: 'Dark' }).check();
    await page.reload();
    const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    expect(ground).toBe('rgb(13, 20, 17)');
  });

  test('the site’s own time is kept to when asked for', async () => {
    const { page } = await open({ path: '/piles/north-bed', remembered: { 'branhearth.prefs': '{"zone":"site"}' } });
    // 09:35 UTC in June is 10:35 in Lisbon.
    await page.getByText('warning, unacknowledged, since 10:35').waitFor();
  });

  test('what anything wrote into storage does no harm', async () => {
    const { page } = await open({
      remembered: { 'branhearth.prefs': '{"unit":"K","zone":7,"shade":"light","name":null}' },
    });
    await page.getByText('the core is at 53.4').waitFor();
    await page.evaluate(() => localStorage.setItem('branhearth.prefs', 'not json'));
    await page.reload();
    await page.getByText('the core is at 53.4').waitFor();
  });
});

describe('a token', () => {
  test('is asked for until it is the right one, opens the live line, and is kept', async () => {
    const { page, mock } = await open({ token: 'stone' });
    await page.getByLabel('Token').fill('wrong');
    await page.getByRole('button', { name: 'Open' }).click();
    await page.getByText('The token stored in this browser was refused.').waitFor();
    await page.getByLabel('Token').fill('stone');
    await page.getByRole('button', { name: 'Open' }).click();
    await page.getByText('live', { exact: true }).waitFor();
    await page.reload();
    await page.getByText('live', { exact: true }).waitFor();
    expect(mock.asked.filter((line) => line === 'GET /api/live').length).toBe(2);
  });
});

describe('what came in', () => {
  test('values of a message are pressed, tried as they are said, used, changed and removed', async () => {
    const { page, mock } = await open({ path: '/incoming' });
    await page.getByText('131 messages could not be used').waitFor();
    const use = page.getByRole('button', { name: 'Use these values' });
    await page.getByRole('button', { name: 'Take air › t 186' }).click();
    await page.getByText('Out of range').waitFor();
    expect(await use.isDisabled()).toBe(true);
    await page.getByRole('group').getByText('More').click();
    await page.getByLabel('Multiplied by').fill('0.1');
    await page.getByText('18.6 °C').waitFor();
    await page.getByRole('button', { name: 'Take air › rh 71.2' }).click();
    await page.getByText('71.2 %').waitFor();
    await page.getByRole('button', { name: '3', exact: true }).click();
    await page.getByText('Not JSON: Cannot read the payload as it must be JSON').waitFor();
    await page.getByText('shed/+/sensors gives temperature of shed-{1} in °C from air › t × 0.1').waitFor();
    await use.click();
    await page.getByText('Its values are used now.').waitFor();
    const sent = mock.asked.find((line) => line.startsWith('POST /api/mappings {')) ?? '';
    expect(JSON.parse(sent.slice('POST /api/mappings '.length))).toMatchObject({
      filter: 'shed/+/sensors',
      site: 'saltmere-yard',
      probe: 'shed-{1}',
      values: [
        { pointer: '/air/t', quantity: 'temperature', unit: 'C', scale: 0.1 },
        { pointer: '/air/rh', quantity: 'humidity', unit: '%RH' },
      ],
      timePointer: '/ts',
    });
    await page.getByText('No message waits for somebody to say what it is.').waitFor();
    await page.getByRole('button', { name: 'Change what is read of shed/+/sensors' }).click();
    await page.getByRole('combobox', { name: 'Unit it is sent in' }).first().selectOption('F');
    await page.getByText('18.6 °F').first().waitFor({ state: 'hidden' });
    await use.click();
    await page.getByText('temperature of shed-{1} in °F').waitFor();
    await page.getByRole('button', { name: 'Remove what is said of shed/+/sensors' }).click();
    await page.getByText('No topic of another device is in use.').waitFor();
  });

  test('a topic that is not for me is no longer shown, until that is taken back', async () => {
    const { page } = await open({ path: '/incoming' });
    await page.getByRole('button', { name: 'Not for me: shed/4/sensors' }).click();
    await page.getByText('shed/4/sensors is not for us.').waitFor();
    await page.getByRole('button', { name: 'Not for me: shed/4/sensors' }).waitFor({ state: 'hidden' });
    await page.getByRole('button', { name: 'Remove what is said of shed/4/sensors' }).click();
    await page.getByRole('button', { name: 'Not for me: shed/4/sensors' }).waitFor();
  });
});

describe('keyboard', () => {
  test('the first stop leads past the masthead, and a new page takes the focus to its heading', async () => {
    const { page } = await open({});
    await page.getByRole('heading', { name: 'Old stack' }).waitFor();
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Go to the content');
    await page.getByRole('link', { name: 'Probes' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: /probes talk/ }).waitFor();
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
    expect(await page.title()).toBe('Probes · Branhearth');
  });
});

describe('probes', () => {
  test('an offset in °F is kept in kelvin', async () => {
    const { page, mock } = await open({ path: '/probes', remembered: { 'branhearth.prefs': '{"unit":"F"}' } });
    await page.getByText('Offset, release').first().click();
    await page.getByLabel('Added to each temperature').first().fill('-0.9');
    await page.getByRole('button', { name: 'Save the offset' }).first().click();
    await page.getByText('Offset −0.9').waitFor();
    expect(mock.asked.some((line) => line.endsWith('/calibration {"temperatureOffsetC":-0.5}'))).toBe(true);
  });

  const strays = (count: number) => (farm: MockFarm) => {
    const [spare] = farm.probes.filter(({ claim }) => claim === null);
    for (let one = 0; spare && one < count; one += 1) farm.probes.push({ ...spare, probe: `stray-${1_000 + one}` });
  };

  test('one that is not yours is asked about twice and then forgotten', async () => {
    const { page, mock } = await open({ path: '/probes' });
    await page.getByText('Not yours? spare-7').click();
    await page.getByRole('button', { name: 'Forget it' }).click();
    await page.getByText('Forget saltmere-yard/spare-7 and delete every reading it sent?').waitFor();
    expect(mock.asked.some((line) => line.startsWith('DELETE'))).toBe(false);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await page.getByRole('button', { name: 'Forget it' }).click();
    await page.getByRole('button', { name: 'Yes, delete for good' }).click();
    await page.getByRole('heading', { name: 'In no pile yet' }).waitFor({ state: 'detached' });
    expect(mock.asked.some((line) => line.startsWith('DELETE /api/probes/saltmere-yard/spare-7'))).toBe(true);
  });

  test('2,000 in no pile are shown twenty at a time, found by typing, and forgotten together', async () => {
    const { page, mock } = await open({ path: '/probes', farm: strays(1_999) });
    await page.getByText('1 to 20 of 2,000').waitFor();
    await page
      .getByRole('navigation', { name: 'Pages of probes in no pile' })
      .getByRole('button', { name: 'Next' })
      .click();
    await page.getByText('21 to 40 of 2,000').waitFor();
    expect(await page.locator('.probe-unclaimed').count()).toBe(20);
    await page.getByLabel('Find a probe').fill('stray-25');
    await page.getByText('1 to 20 of 100').waitFor();
    await page.getByRole('button', { name: 'Forget all 100 probes found' }).click();
    await page.getByText('Forget all 100 probes in no pile with “stray-25” in the name').waitFor();
    await page.getByRole('button', { name: 'Yes, delete for good' }).click();
    await page.getByText('No probe without a pile has that in its name.').waitFor();
    expect(mock.asked).toContain('POST /api/probes/forget {"find":"stray-25"}');
    await page.getByLabel('Find a probe').fill('');
    await page.getByText('21 to 40 of 1,900').waitFor();
  });

  test('a place that is taken is refused at its field', async () => {
    const { page } = await open({ path: '/probes' });
    await page.getByRole('button', { name: 'Claim it' }).click();
    await page.getByText('another probe sits there').waitFor();
  });
});
