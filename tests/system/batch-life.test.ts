/**
 * A batch's whole life through the pages, on a phone: planned, laid, tended, judged, split, moved to the next stage, finished, used, and printed.
 */

import type { Locator, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { batchDetailSchema, batchesAnswerSchema, lineageAnswerSchema } from '../../shared/contracts/lineage.ts';
import { hasChromium } from '../helpers/browser.ts';
import type { SpawnedInstallation } from '../helpers/spawn-server.ts';
import { openSpawnedPage, type SpawnedPage } from '../helpers/spawned-page.ts';
import { patienceMs } from '../helpers/until.ts';

let installation: SpawnedInstallation;
let page: Page;
let pilePath = '';
let opened: SpawnedPage | undefined;
let troubles: readonly string[] = [];

beforeAll(async () => {
  if (!hasChromium) return;
  opened = await openSpawnedPage({ viewport: { width: 360, height: 740 }, timezoneId: 'UTC' });
  ({ installation, page, troubles } = opened);
  page.setDefaultTimeout(patienceMs);
});
afterAll(() => opened?.close());

const asks = (path: string) => fetch(installation.pagesUrl + path).then((answer) => answer.json());
const form = (name: string): Locator => page.getByRole('form', { name });
const heading = (name: string | RegExp) => page.getByRole('heading', { level: 1, name }).waitFor();

async function batchNamed(part: RegExp) {
  const { batches } = batchesAnswerSchema.parse(await asks('/api/batches'));
  const found = batches.find((batch) => part.test(batch.name) || part.test(batch.pileName));
  if (!found) throw new Error(`no batch is called ${part}: ${batches.map((batch) => batch.name)}`);
  return found;
}

async function openBatch(part: RegExp) {
  const { id, name } = await batchNamed(part);
  await page.goto(`${installation.pagesUrl}/batches/${id}`);
  await heading(name);
  return id;
}

test.runIf(hasChromium)('the water is planned, and the plan’s figures lay the pile', async () => {
  await page.goto(`${installation.pagesUrl}/plan/water`);
  await page.getByLabel('How much of it').fill('40');
  await page.getByLabel('Diluted starter that goes in').fill('2');
  await page.getByText(/Mix in .* of it first/).waitFor();
  await page.getByText('How it was worked out').waitFor();
  await page.getByRole('link', { name: 'Lay a pile with these figures' }).click();
  await heading('Lay what was planned');
  // 40 kg at 12 % hold 35.2 kg of dry matter, which at 60 % weighs 88 kg.
  expect(await page.getByLabel('Mass as laid').inputValue()).toBe('88');
  expect(await page.getByLabel('Moisture as laid').inputValue()).toBe('60');
  await page.getByLabel('Name of the place').fill('Saltmere Yard');
  await page.getByLabel('Name of the pile').fill('Cart shed');
  await page.getByLabel('Depth').fill('30');
  await page.getByRole('button', { name: 'Lay the pile' }).click();
  await heading('Cart shed');
  pilePath = new URL(page.url()).pathname;
});

test.runIf(hasChromium)('starter and bran are written down as lots, and go into the batch', async () => {
  await page.getByRole('link', { name: 'This batch: move it to the next stage, split it, use it' }).click();
  await page.getByRole('heading', { name: 'What went in' }).waitFor();
  const batch = page.url();
  await page.goto(`${installation.pagesUrl}/lots`);
  const lot = form('Write down a lot');
  await lot.getByLabel('Its name').fill('Oak wood');
  await lot.getByLabel('Where it was collected').fill('the oak wood behind the terrace');
  await lot.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('link', { name: 'Oak wood' }).waitFor();
  await lot.getByRole('radio', { name: 'A material' }).check();
  await lot.getByLabel('Its name').fill('Mill bran');
  await lot.getByRole('button', { name: 'Write it down' }).click();
  await lot.getByText('Choose what it is.').waitFor();
  await lot.getByLabel('Material', { exact: true }).selectOption('wheat-bran');
  await lot.getByLabel('Supplier', { exact: true }).fill('Tidewell Mill');
  await lot.getByLabel('Organic status').selectOption('certified');
  await lot.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('link', { name: 'Mill bran' }).waitFor();

  await page.goto(batch);
  const inputs = form('What went in');
  for (const [name, mass] of [
    ['Oak wood', '0.1'],
    ['Mill bran', '40'],
  ] as const) {
    await inputs.getByRole('button', { name: 'Something is mixed in' }).click();
    await inputs.getByLabel('Mixed in (1)').selectOption({ label: name });
    await inputs.getByLabel('Mass of it').fill(mass);
    await inputs.getByRole('button', { name: 'Write down what went in' }).click();
    await page.getByRole('link', { name }).waitFor();
  }
});

test.runIf(hasChromium)('it is tended from the address its label opens: three taps an entry', async () => {
  await page.goto(`${installation.pagesUrl}${pilePath}/journal`);
  await heading('Cart shed');
  const write = () => page.getByRole('button', { name: 'Write it down' }).click();
  const written = (says: string) => page.locator('.diary b', { hasText: says }).first().waitFor();

  await page.getByRole('button', { name: 'Turned' }).click();
  await page
    .getByText(/a close-fitting dust mask/)
    .first()
    .waitFor();
  await write();
  await written('Turned');

  await page.getByRole('button', { name: 'Squeeze test' }).click();
  await page.getByRole('radio', { name: /^Holds together, no drop/ }).check();
  await write();
  await written('Squeezed: holds together, no drop (right, on the dry side)');

  await page.getByRole('button', { name: 'Watered' }).click();
  await page.getByLabel('Water given').fill('4');
  await write();
  await written('Watered, 4 L');

  await page.getByRole('button', { name: 'Smell' }).click();
  await page.getByRole('checkbox', { name: 'Sweet' }).check();
  await page.getByRole('checkbox', { name: 'Earthy' }).check();
  await write();
  await written('Smells sweet and earthy');

  await page.getByRole('button', { name: 'Photo', exact: true }).click();
  const buffer = await sharp({ create: { width: 64, height: 48, channels: 3, background: '#c08a3e' } })
    .png()
    .toBuffer();
  await page.getByLabel('Photo from files').setInputFiles({ name: 'bed.png', mimeType: 'image/png', buffer });
  await page.getByRole('img', { name: 'Photo 1 of this entry' }).waitFor();
  await write();
  await page.getByRole('img', { name: /^Photo 1 of Photo, / }).waitFor();
});

test.runIf(hasChromium)('a correction stands, and what it said before can be read', async () => {
  await page.getByRole('button', { name: /^Correct Watered, 4 L/ }).click();
  const correction = form('Watered: correct it');
  await correction.getByLabel('Water given').fill('5');
  await correction.getByLabel('Why it is corrected').fill('read the can wrong');
  await correction.getByRole('button', { name: 'Keep the correction' }).click();
  await page.locator('.diary b', { hasText: 'Watered, 5 L' }).waitFor();
  await page.getByRole('button', { name: /^What it said before.*Watered, 5 L/ }).click();
  await page.getByText(/^Watered, 4\sL/).waitFor();
  await page.getByText(/read the can wrong/).waitFor();
});

test.runIf(hasChromium)('probes alone say nothing of ready; a person does', async () => {
  await openBatch(/Cart shed/);
  await page.getByText('Nobody has said yet.').waitFor();
  await page.getByRole('button', { name: 'Say how it smells and looks' }).click();
  await page
    .getByText(/Do not put your nose into a mouldy heap/)
    .first()
    .waitFor();
  const word = form('Ready or not: write it down');
  await word.getByRole('group', { name: 'Smell' }).getByRole('radio', { name: 'Good' }).check();
  await word.getByRole('group', { name: 'Look' }).getByRole('radio', { name: 'Good' }).check();
  await word.getByRole('radio', { name: 'Yes, by nose and eye' }).check();
  await word.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText(/smell good, look good, ready\./).waitFor();
});

test.runIf(hasChromium)('a part is taken off and laid by itself', async () => {
  await page.getByRole('button', { name: /^Split/ }).click();
  await form('Split').getByLabel('Its mass').fill('8');
  await form('Split').getByLabel('Name of the new pile').fill('Low bench');
  await form('Split').getByRole('button', { name: 'Split' }).click();
  await page.getByText(/split off \d/).waitFor();
  expect((await batchNamed(/Low bench/)).stage).toBe('bran');
});

test.runIf(hasChromium)('the rest is moved to the soil stage, on new ground', async () => {
  const branId = await openBatch(/Cart shed/);
  await page.getByRole('button', { name: /^Move to the next stage/ }).click();
  const on = form('Move to the next stage');
  await on.getByLabel('Its mass now').fill('80');
  await on.getByLabel('Name of the new pile').fill('Wall heap');
  await on.getByLabel('Depth').fill('20');
  await on.getByText('More about the batch').click();
  await on.getByLabel('Mass as laid').fill('160');
  await on.getByLabel('Name of the new batch').fill('Wall heap, spring');
  await on.getByRole('button', { name: 'Move to the next stage' }).click();
  await heading('Wall heap, spring');
  const bran = batchDetailSchema.parse(await asks(`/api/batches/${branId}`));
  expect(bran.ending).toBe('continued');
  // What was taken off and what was taken on add up to what was laid.
  expect(bran.amounts).toMatchObject({ laidKg: 88, outKg: 88, restKg: 0 });
});

test.runIf(hasChromium)('it is used on a bed at a rate, and the last of it ends it', async () => {
  const use = async (place: string, fill: (one: Locator) => Promise<void>) => {
    await page.getByRole('button', { name: /^Use it/ }).click();
    await form('Write down a use').getByLabel('Which one').fill(place);
    await fill(form('Write down a use'));
    await form('Write down a use').getByRole('button', { name: 'Write down the use' }).click();
    await page.getByText(place, { exact: true }).waitFor();
  };
  await use('Bed 3, upper terrace', async (one) => {
    await one.getByLabel('Mass of the part').fill('60');
    await one.getByLabel('Ground covered').fill('30');
  });
  await page.getByText(/2\skg\/m²/).waitFor();
  await use('Long heap', async (one) => {
    await one.getByLabel('Used on').selectOption('compost');
    await one.getByRole('radio', { name: 'All that is left' }).check();
  });
  await page
    .getByText(/used up \d/)
    .first()
    .waitFor();
});

test.runIf(hasChromium)('the part laid by itself is finished on its pile’s page, with how it came out', async () => {
  const { pileId } = await batchNamed(/Low bench/);
  await page.goto(`${installation.pagesUrl}/piles/${pileId}`);
  await page.getByLabel('How it came out').fill('Dry at the edge, sweet within.');
  await page.getByRole('button', { name: 'Finish the batch' }).click();
  await page.getByRole('heading', { name: 'Lay the next batch here' }).waitFor();
  await openBatch(/Low bench/);
  await page.getByText('How it came out: Dry at the edge, sweet within.').waitFor();
});

test.runIf(hasChromium)('which beds got what came from that wood: the tree and the list both lead there', async () => {
  await page.goto(`${installation.pagesUrl}/lots`);
  await page.getByRole('link', { name: 'Oak wood' }).click();
  await page.getByRole('heading', { name: 'Where it went' }).waitFor();
  await page.getByRole('link', { name: 'Its family tree' }).click();
  await heading('The family of Oak wood');
  await page
    .getByRole('link', { name: /^Bed 3, upper terrace/ })
    .first()
    .click();
  await heading('The family of Bed 3, upper terrace');
  await page
    .getByRole('link', { name: /^Oak wood/ })
    .first()
    .waitFor();
  const { nodes } = lineageAnswerSchema.parse(await asks('/api/lineage'));
  expect(
    nodes
      .filter((node) => node.kind === 'use')
      .map((node) => node.name)
      .sort(),
  ).toEqual(['Bed 3, upper terrace', 'Long heap']);
});

test.runIf(hasChromium)('its record says what was done and what it is not, prints, and is a PDF', async () => {
  const id = await openBatch(/Cart shed/);
  await page.getByRole('link', { name: 'Its record' }).click();
  await page
    .getByText(/not a certification/i)
    .first()
    .waitFor();
  await page
    .getByText(/not sanitised/i)
    .first()
    .waitFor();
  await page.getByText('Watered, 5 L').waitFor();
  await page.getByText('Tidewell Mill').first().waitFor();
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.masthead').isVisible()).toBe(false);
  const printed = await page.pdf({ format: 'A4' });
  expect(printed.subarray(0, 5).toString()).toBe('%PDF-');
  await page.emulateMedia({ media: 'screen' });
  const link = page.getByRole('link', { name: 'PDF', exact: true });
  const answer = await fetch(installation.pagesUrl + (await link.getAttribute('href')));
  expect(answer.headers.get('content-type')).toContain('application/pdf');
  expect(
    Buffer.from(await answer.arrayBuffer())
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-');
  expect(await link.getAttribute('href')).toBe(`/api/batches/${id}/record.pdf`);
});

test.runIf(hasChromium)('the calendar’s address answers, and its label is drawn', async () => {
  await page.goto(`${installation.pagesUrl}/records`);
  const address = (await page.locator('.copy-line pre').textContent()) ?? '';
  const feed = await fetch(installation.pagesUrl + new URL(address).pathname);
  expect(await feed.text()).toContain('BEGIN:VCALENDAR');
  await page.getByRole('link', { name: 'Label for Cart shed' }).click();
  await page.getByRole('img', { name: new RegExp(`^Code that opens .*${pilePath}/journal$`) }).waitFor();
});

test.runIf(hasChromium)('a journal of another year is brought in, its bad row refused with the reason', async () => {
  await page.goto(`${installation.pagesUrl}/import`);
  await page.getByRole('radio', { name: 'A journal' }).check();
  await page.getByLabel('Pile', { exact: true }).selectOption({ label: 'Cart shed' });
  const csv = 'time,kind,note\n2024-05-01 08:00,turned,\n2024-05-02 08:00,note,warm and sweet\nsome day,turned,\n';
  await page.getByLabel('CSV file').setInputFiles({ name: 'old.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) });
  await page.getByRole('button', { name: 'Look at it' }).click();
  await page.getByText(/^2 of 3 rows can be stored/).waitFor();
  await page.getByText(/^Line 4/).waitFor();
  await page.getByRole('button', { name: 'Store 2 rows' }).click();
  await page.getByText(/^2 rows stored/).waitFor();
});

test.runIf(hasChromium)('no page of this complained, and none is wider than the phone', async () => {
  const { id } = await batchNamed(/Cart shed/);
  const paths = [
    '/plan/starter',
    '/plan/heap',
    '/batches',
    `/batches/${id}`,
    `/batches/${id}/record`,
    '/lots',
    '/lineage',
  ];
  for (const path of [...paths, `${pilePath}/journal`, '/records', '/import', '/more', `${pilePath}/label`]) {
    await page.goto(installation.pagesUrl + path);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const [needs, has] = await page.evaluate<[number, number]>(
      '[document.documentElement.scrollWidth, window.innerWidth]',
    );
    expect([path, needs <= has]).toEqual([path, true]);
  }
  expect(troubles).toEqual([]);
});

test.runIf(hasChromium)('before one is put together with another, what was found of that one is said', async () => {
  const tell = (path: string, body: object) =>
    fetch(installation.pagesUrl + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  for (const id of ['sound', 'spoilt'])
    await tell('/api/piles', { id, site: 'saltmere-yard', name: `Bay ${id}`, stage: 'bran' });
  const at = new Date().toISOString();
  const entry = { id: 'grew-orange', at, what: { kind: 'growth', colour: 'other', place: 'all-through' } };
  await tell('/api/entries', { entries: [{ pileId: 'spoilt', entry }] });
  await openBatch(/Bay sound/);
  await page.getByRole('button', { name: 'Put together' }).click();
  await page.getByRole('checkbox', { name: /Bay spoilt/ }).check();
  await form('Put together')
    .getByText(/look was found bad/)
    .waitFor();
});
