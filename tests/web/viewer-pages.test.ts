/**
 * A viewer goes through every page of a server at work: the content is there, nothing is offered that the server would refuse,
 * and nothing is asked of it in vain. A keeper is offered nothing that is an owner's.
 */
import type { Browser, Page, Response } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Role } from '../../shared/person.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import type { TestInstallation } from '../helpers/open-test-server.ts';
import { join } from '../helpers/people.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { openRealPages, type RealPages } from './open-real-pages.ts';

const hourMs = 3_600_000;
const site = 'saltmere-yard';
/** The last reading of the pile is of just now. */
const startMs = Date.now() - 60 * hourMs;
const at = (hour: number) => new Date(startMs + hour * hourMs).toISOString();

let real: RealPages;
let one: TestInstallation;
let browser: Browser;
let url: string;
let batchId: string;
let lotId: string;

beforeAll(async () => {
  real = await openRealPages({}, { takesPush: true });
  ({ one, browser, url } = real);
  await furnish();
  await join(one, 'Olive', 'owner');
});
afterAll(() => real?.close());

async function post<T = { id: string }>(path: string, payload: object): Promise<T> {
  const answer = await one.app.inject({ method: 'POST', url: path, payload });
  if (answer.statusCode >= 300) throw new Error(`${path}: ${answer.body}`);
  return answer.json<T>();
}

/** While nobody is set up: a warm pile with a warning, a past batch, lots, entries, a mapping, probes in and out of piles. */
async function furnish(): Promise<void> {
  await post('/api/sites', { name: 'Saltmere Yard' });
  const lot = await post('/api/lots', {
    name: 'Oak wood, March',
    massKg: 2,
    facts: { kind: 'starter', collectedPlace: 'oak wood', collectedAt: at(-600), sugar: 'raw cane' },
  });
  lotId = lot.id;
  const recipe = { massKg: 96, moistureFrac: 0.6, depthM: 0.3, material: 'wheat-bran' };
  const pile = await post<{ batch: { id: string } }>('/api/piles', {
    id: 'cart-shed',
    site,
    name: 'Cart shed',
    stage: 'bran',
    startedAt: at(0),
    recipe,
  });
  batchId = pile.batch.id;
  await post(`/api/batches/${batchId}/inputs`, { lotId, massKg: 0.5 });
  const hear = async (probe: string, coreC: (hour: number) => number, hours: number) => {
    const readings = Array.from({ length: hours * 6 + 1 }, (_, i) => ({
      site,
      probe,
      quantity: 'temperature' as const,
      atMs: startMs + (i / 6) * hourMs,
      value: Math.round(coreC(i / 6) * 16) / 16,
    }));
    await commitReadings(one.installation, readings);
  };
  // Hot, and moving a little: a probe that says one value for half a day would be a warning of its own.
  await hear('core', (hour) => Math.min(54, 22 + hour * 0.7) + 0.2 * Math.sin(hour), 60);
  await hear('stray', () => 19, 60);
  await post(`/api/probes/${site}/core/claim`, { pileId: 'cart-shed', position: 'core' });
  for (const [hour, what] of [
    [20, { kind: 'smell', smells: ['sweet'] }],
    [30, { kind: 'watered', amountL: 5 }],
    [40, { kind: 'readiness', smell: 'good', look: 'doubtful', ready: false }],
  ] as const)
    await post('/api/piles/cart-shed/entries', { what, at: at(hour), by: 'Ines' });
  await post('/api/piles', { id: 'old-bed', site, name: 'Old bed', stage: 'bran', startedAt: at(-300), recipe });
  await post('/api/piles/old-bed/finish', { at: at(-100) });
  await post('/api/mappings', {
    filter: 'shed/+/sensors',
    pointer: '/t',
    quantity: 'temperature',
    unit: 'C',
    scale: 1,
    site,
    probe: 'shed-{1}',
  });
  await until('the warning', async () => {
    const { alarms } = (await one.app.inject({ url: '/api/piles/cart-shed' })).json<{ alarms: unknown[] }>();
    return alarms.length > 0 ? true : undefined;
  });
}

interface Seen {
  /** What can be pressed or sent, by its words. */
  readonly controls: string[];
  readonly links: string[];
  readonly refused: string[];
}

let people = 0;
async function signedIn(role: Role): Promise<Page> {
  people += 1;
  const cookies = await join(one, `Person ${people}`, role);
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    locale: 'en-GB',
    timezoneId: 'UTC',
  });
  await context.addCookies(
    cookies.split('; ').map((pair) => {
      const [name = '', value = ''] = pair.split('=');
      return { name, value, url };
    }),
  );
  const page = await context.newPage();
  page.setDefaultTimeout(patienceMs);
  return page;
}

/** Everything that can be pressed, sent or followed on a page whose folds all stand open. */
async function see(page: Page, path: string, shows: string): Promise<Seen> {
  const refused: string[] = [];
  const listen = (response: Response) => {
    if (response.status() >= 400) refused.push(`${response.status()} ${response.request().method()} ${response.url()}`);
  };
  page.on('response', listen);
  await page.goto(url + path);
  await page.getByText('live', { exact: true }).waitFor();
  const main = page.locator('main');
  await main.getByText(shows).first().waitFor();
  let before = '';
  await until('the page to rest', async () => {
    const now = await main.innerHTML();
    const rests = now === before && !/(Fetching|Looking|Counting|Reading)[^<]*…/.test(now);
    before = now;
    return rests ? true : new Promise<undefined>((resolve) => setTimeout(() => resolve(undefined), 120));
  });
  await main.locator('details:not([open]) > summary').evaluateAll((all) => {
    for (const summary of all) (summary as HTMLElement).click();
  });
  const controls = await main
    .locator('button, input[type=submit], input[type=file], summary')
    .evaluateAll((all) => all.map((control) => (control.textContent ?? '').replaceAll(/\s+/g, ' ').trim()));
  const links = await main
    .locator('a[href]')
    .evaluateAll((all) => all.map((link) => (link.getAttribute('href') ?? '').replace(/\?.*/, '')));
  page.off('response', listen);
  return { controls, links, refused };
}

/** Pages, and words that stand there once they have their content. */
const pages = (): readonly (readonly [path: string, shows: string])[] => [
  ['/', 'Cart shed'],
  ['/piles/cart-shed', 'What is normal here'],
  ['/piles/cart-shed/why', 'Overheating'],
  ['/piles/cart-shed/journal', 'Ines'],
  ['/piles/cart-shed/label', 'Cart shed'],
  ['/piles/old-bed', 'No batch lies here now.'],
  ['/batches', 'Ended'],
  [`/batches/${batchId}`, 'What went in'],
  [`/batches/${batchId}/record`, 'Cart shed'],
  ['/lots', 'Oak wood, March'],
  [`/lots/${lotId}`, 'Where it went'],
  ['/lineage', 'farm’s family tree'],
  ['/records', 'In your calendar'],
  ['/seasons', 'Names of seasons'],
  [`/seasons/like/${batchId}`, 'Past batches'],
  ['/probes', 'stray'],
  ['/incoming', 'shed/+/sensors'],
  ['/plan', 'How much starter for how much water?'],
  ['/retention', 'What stays exact'],
  ['/notifications', 'My notifications'],
  ['/search?find=cart', 'Cart shed'],
  ['/more', 'Seasons side by side'],
];

/** What anybody may press: to look closer, take out what may be seen, and see to what is their own. */
const ofEverybody: Readonly<Record<string, readonly string[]>> = {
  '/piles/cart-shed': ['What happened to this warning', 'What colours, dots and marks mean'],
  '/piles/old-bed': ['What colours, dots and marks mean'],
  '/piles/cart-shed/label': ['Print it'],
  '/batches/:id': ['What is good and bad to find'],
  '/batches/:id/record': ['Print it', 'What is good and bad to find'],
  '/records': ['Copy', 'The address fell into the wrong hands', 'Renew the address'],
  '/plan': ['In kilograms, litres, metres, °C', 'Starting from the starter you have'],
  '/notifications': [
    'Notify this device',
    ...['Add ntfy', 'Add Pushover', 'Add Telegram', 'Add Matrix', 'Add Apprise'],
    'Saved',
  ],
};
/** Columns of the table of measures sort it; these stand above it. */
const ofSeasons = ['Copy the link', 'Print'];

/** Pages that are not for everybody, with the least that is needed. */
const closed: readonly (readonly [path: string, to: Role])[] = [
  ['/piles/new', 'keeper'],
  ['/plan/lay', 'keeper'],
  ['/import', 'keeper'],
  ['/seasons/earlier', 'keeper'],
  ['/keys', 'owner'],
  ['/people', 'owner'],
  ['/who-did-what', 'owner'],
  ['/weather', 'owner'],
];

const ownersOwn = /^(Listen|Remove|Keep every reading)$/;

test('a viewer sees what every page holds, with nothing on it that the server would refuse', async () => {
  const page = await signedIn('viewer');
  for (const [path, shows] of pages()) {
    const { controls, links, refused } = await see(page, path, shows);
    const name = path.replace(batchId, ':id');
    const offered =
      path === '/seasons'
        ? controls.slice(0, ofSeasons.length).concat(controls.filter((words) => words.startsWith('Name ')))
        : controls;
    expect([path, offered]).toEqual([path, path === '/seasons' ? ofSeasons : (ofEverybody[name] ?? [])]);
    expect([path, links.filter((link) => closed.some(([to]) => to === link))]).toEqual([path, []]);
    expect([path, refused]).toEqual([path, []]);
  }
  for (const [path, to] of closed) {
    const who = to === 'owner' ? 'owners' : 'keepers and owners';
    const { controls, refused } = await see(page, path, `This page is for ${who}.`);
    expect([path, controls, refused]).toEqual([path, [], []]);
  }
  await page.context().close();
});

test('a keeper is offered what is a keeper’s, and nothing of an owner’s', async () => {
  const page = await signedIn('keeper');
  const offered: string[] = [];
  for (const [path, shows] of pages()) {
    const { controls, links, refused } = await see(page, path, shows);
    expect([path, controls.filter((words) => ownersOwn.test(words))]).toEqual([path, []]);
    expect([path, links.filter((link) => closed.some(([to, role]) => to === link && role === 'owner'))]).toEqual([
      path,
      [],
    ]);
    expect([path, refused]).toEqual([path, []]);
    offered.push(...controls, ...links);
  }
  // So that an empty page does not pass for a modest one.
  expect(offered).toEqual(
    expect.arrayContaining([
      'Acknowledge Overheating',
      'Claim it',
      'Nothing is left of it',
      'Say how it smells and looks',
      'Strike out Oak wood, March',
      'Write it down',
      '/piles/new',
      '/import',
      '/seasons/earlier',
    ]),
  );
  await page.context().close();
});

test('an owner is offered what only owners may do', async () => {
  const page = await signedIn('owner');
  const offered: string[] = [];
  for (const [path, shows] of [
    ['/incoming', 'shed/+/sensors'],
    ['/retention', 'What stays exact'],
    ['/probes', 'stray'],
  ] as const) {
    const { controls, links } = await see(page, path, shows);
    offered.push(...controls, ...links);
  }
  expect(offered).toEqual(expect.arrayContaining(['Listen', 'Remove', 'Keep every reading', '/keys']));
  await page.context().close();
});

test('a viewer of a server without piles is not asked to lay one', async () => {
  const page = await signedIn('viewer');
  await page.route('**/api/piles', (route) => route.fulfill({ json: { piles: [] } }));
  // The server has some, and would say how they change.
  await page.route('**/api/live*', (route) => route.abort());
  await page.goto(url);
  await page.getByText('A keeper or an owner lays the first').waitFor();
  expect(await page.locator('main').getByRole('button').count()).toBe(0);
  await page.context().close();
});
