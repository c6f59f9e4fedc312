import { afterAll, beforeAll, expect, test } from 'vitest';
import { compareCsv } from '../../server/services/seasons/compare-table.ts';
import type { Clock } from '../../shared/clock.ts';
import { batchPeaksAnswerSchema } from '../../shared/contracts/lineage.ts';
import {
  type ClosestAnswer,
  closestAnswerSchema,
  compareAnswerSchema,
  curvesAnswerSchema,
  seasonsAnswerSchema,
} from '../../shared/contracts/seasons.ts';
import type { Reading } from '../../shared/reading.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../shared/units.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

const site = 'saltmere-yard';
const firstMs = Date.UTC(2031, 2, 10, 6, 3);
const nowMs = firstMs + 100 * msPerDay;
const clock: Clock = { nowMs: () => nowMs, speed: 1 };
let one: TestInstallation;
const ids: string[] = [];

/** A hump that passes 40 °C after `lateH` more hours: 20 °C, then up to `peakC` and back within five days. */
function hump(ageH: number, lateH: number, peakC: number): number {
  const share = Math.min(1, Math.max(0, (ageH - lateH) / 96));
  return 20 + (peakC - 20) * Math.sin(Math.PI * share);
}

async function post(url: string, payload: object) {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
  return answer.json();
}

async function measured(probe: string, fromMs: number, hours: number, value: (ageH: number) => number) {
  const readings: Reading[] = [];
  for (let minute = 0; minute < hours * 60; minute += 10) {
    const atMs = fromMs + minute * msPerMinute;
    readings.push({ site, probe, quantity: 'temperature', atMs, value: value(minute / 60) });
  }
  await commitReadings(one.installation, readings);
}

/** Five batches on one pile, twelve days apart; the last one runs. */
const laid = [
  { lateH: 6, peakC: 44, depthM: 0.25 },
  { lateH: 10, peakC: 46, depthM: 0.25 },
  { lateH: 30, peakC: 58, depthM: 0.35 },
  { lateH: 8, peakC: 45, depthM: 0.25 },
] as const;

beforeAll(async () => {
  one = await openNewTestInstallation({}, clock);
  await post('/api/sites', { name: 'Saltmere Yard', latitude: 41, timeZone: 'UTC' });
  for (const [i, { lateH, peakC, depthM }] of laid.entries()) {
    const startedAt = firstMs + i * 24 * msPerDay;
    const recipe = { material: i === 2 ? 'rice-bran' : 'wheat-bran', depthM, moistureFrac: 0.6 };
    if (i === 0) await post('/api/piles', { site, id: 'bed', name: 'Bed', stage: 'bran', startedAt, recipe });
    else await post('/api/piles/bed/batches', { stage: 'bran', startedAt, recipe });
    const list = await one.installation.journal.batches.list('bed');
    ids.push(list.at(-1)?.id ?? '');
    const hours = i === 3 ? 48 : 120;
    await measured('core', startedAt, hours, (ageH) => hump(ageH, lateH, peakC));
    await measured('shade', startedAt, hours, () => 18);
    if (i === 0) {
      await post(`/api/probes/${site}/core/claim`, { pileId: 'bed', position: 'core', from: firstMs });
      await post(`/api/probes/${site}/shade/claim`, { pileId: 'bed', position: 'air', from: firstMs });
    }
    await post('/api/piles/bed/acts', { kind: 'turned', at: startedAt + 60 * msPerHour });
    await post('/api/piles/bed/acts', { kind: 'watered', at: startedAt + 61 * msPerHour, amountL: 5 });
    if (i < 3) await post('/api/piles/bed/finish', { at: startedAt + 5 * msPerDay, outcome: `white, batch ${i + 1}` });
  }
});
afterAll(() => one.closeAndRemove());

const get = async (url: string) => one.app.inject({ url });
const compare = async (query = '') => compareAnswerSchema.parse((await get(`/api/compare${query}`)).json());

test('GET /api/compare gives a row of measures per ended batch, newest first', async () => {
  const { batches, leftOut } = await compare();
  expect(leftOut).toBe(0);
  expect(batches.map(({ id }) => id)).toEqual([ids[2], ids[1], ids[0]]);
  const first = batches[2];
  expect(first).toMatchObject({ outcome: 'white, batch 1', season: { name: 'spring 2031' }, year: 2031, depthM: 0.25 });
  // 20 + 24 sin(pi x) = 40 at x = 0.3136, that is 6 h + 30.1 h; rollups tell it to ten minutes.
  expect(first?.measures.hoursTo40).toBeGreaterThan(36);
  expect(first?.measures.hoursTo40).toBeLessThan(36.4);
  expect(first?.measures.peakC).toBeCloseTo(44, 1);
  expect(first?.measures.peakAfterH).toBeGreaterThan(53.7);
  expect(first?.measures.peakAfterH).toBeLessThan(54.3);
  // Above 35 °C while sin(pi x) > 0.625: x from 0.2149 to 0.7851, 54.7 h; never above 45 °C.
  expect(first?.measures.comfortH).toBeCloseTo(54.7, 0);
  expect(first?.measures).toMatchObject({ above50H: 0, turns: 1, waterL: 5, moistureStartFrac: 0.6, readyDays: 5 });
  expect(first?.measures.airMeanC).toBeCloseTo(18, 6);
  expect(batches[0]?.measures.above50H).toBeGreaterThan(10);
});

test('GET /api/batches/peaks gives the same peak of each batch, also of the one that runs', async () => {
  const { batches } = await compare('?state=all');
  const { peaks } = batchPeaksAnswerSchema.parse((await get('/api/batches/peaks')).json());
  const wanted = new Map(batches.map(({ id, measures }) => [id, measures.peakC]));
  expect(wanted.size).toBe(4);
  expect(new Map(peaks.map(({ id, peakC }) => [id, peakC]))).toEqual(wanted);
  expect(wanted.get(ids[2] ?? '')).toBeCloseTo(58, 1);
});

const choices: [string, number[]][] = [
  ['?material=rice-bran', [2]],
  ['?material=soil-mix', []],
  ['?season=2031-spring', [2, 1, 0]],
  ['?season=2031-summer', []],
  ['?year=2031&stage=bran', [2, 1, 0]],
  ['?year=2030', []],
  ['?site=saltmere-terrace', []],
  ['?state=all', [3, 2, 1, 0]],
];
for (const [query, wanted] of choices) {
  test(`GET /api/compare${query} chooses ${wanted.length} batches`, async () => {
    const { batches } = await compare(query);
    expect(batches.map(({ id }) => ids.indexOf(id))).toEqual(wanted);
  });
}

test('GET /api/compare?batches takes just those, and a wrong season is refused with its pointer', async () => {
  expect((await compare(`?batches=${ids[0]},${ids[2]}`)).batches).toHaveLength(2);
  const refused = await get('/api/compare?season=monsoon');
  expect(refused.statusCode).toBe(400);
  expect(refused.json().errors[0].pointer).toBe('/season');
});

test('GET /api/compare/curves stands by whole hours of age, with the hour in which warming began', async () => {
  const { curves } = curvesAnswerSchema.parse((await get('/api/compare/curves')).json());
  const first = curves.find(({ id }) => id === ids[0]);
  expect(first?.coreC).toHaveLength(121);
  expect(first?.coreC[54]).toBeCloseTo(44, 1);
  expect(first?.airC[54]).toBe(18);
  // 22 °C, four above the air: sin(pi x) = 1/12, 2.6 h after the rise began at 6 h.
  expect(first?.warmingAfterH).toBe(9);
});

test('GET /api/batches/:id/closest puts the batch that went like it first, with what was done at which age', async () => {
  const answer: ClosestAnswer = closestAnswerSchema.parse((await get(`/api/batches/${ids[3]}/closest`)).json());
  expect(answer.closest.map(({ batch }) => ids.indexOf(batch.id))).toEqual([0, 1, 2]);
  expect(answer.closest[0]?.batch.outcome).toBe('white, batch 1');
  expect(answer.closest[0]?.acts.map(({ kind, afterH }) => [kind, afterH])).toEqual([
    ['turned', 60],
    ['watered', 61],
  ]);
  expect(answer.curves).toHaveLength(4);
  expect((await get('/api/batches/nobody/closest')).statusCode).toBe(404);
});

test('a season is named by the grower, and gets its usual name back', async () => {
  const named = await one.app.inject({
    method: 'PUT',
    url: '/api/seasons/2031-spring',
    payload: { name: 'the dry one' },
  });
  expect(seasonsAnswerSchema.parse(named.json()).seasons.find(({ id }) => id === '2031-spring')).toMatchObject({
    name: 'the dry one',
    usualName: 'spring 2031',
  });
  expect((await compare()).batches[0]?.season.name).toBe('the dry one');
  await one.app.inject({ method: 'PUT', url: '/api/seasons/2031-spring', payload: { name: null } });
  expect((await compare()).batches[0]?.season.name).toBe('spring 2031');
});

test('GET /api/compare.csv has a heading, a row per batch, and the outcome in the person’s words', async () => {
  const answer = await get('/api/compare.csv?year=2031');
  expect(answer.headers['content-type']).toContain('text/csv');
  const lines = answer.body.trim().split('\r\n');
  expect(lines).toHaveLength(4);
  expect(lines[0]).toContain('hours to 40 °C [h]');
  expect(lines[3]).toContain('"white, batch 1"');
  expect(new Set(lines.slice(1).map((line) => line.split(',')[0]))).toEqual(new Set(ids.slice(0, 3)));
});

test('compareCsv() lets nothing that a person wrote be taken for a formula, wherever a spreadsheet begins its cells', async () => {
  const [batch] = (await compare()).batches;
  if (batch === undefined) throw new Error('no batch to compare');
  const csv = compareCsv([{ ...batch, name: ' =2+2', outcome: 'late;=1+1' }]);
  expect(csv).toContain(`,"' =2+2",`);
  expect(csv).toContain(`"late;'=1+1"`);
});

const notebook = {
  site,
  name: 'From the blue notebook',
  stage: 'bran',
  outcome: 'sweet',
  recipe: { material: 'wheat-bran', depthM: 0.3 },
  table: [
    'day core air',
    '2029-05-01 21 14',
    '2029-05-02 34 15',
    '2029-05-03 44,5 16',
    'soon 40 12',
    '2029-05-04 41 14',
    '2029-05-05 30 15',
  ].join('\n'),
};

test('POST /api/seasons/earlier shows a hand-written table before it keeps it, with each line it cannot use', async () => {
  const shown = await one.app.inject({ method: 'POST', url: '/api/seasons/earlier', payload: notebook });
  expect(shown.statusCode).toBe(200);
  expect(shown.json()).toMatchObject({ batchId: null, core: 5, air: 5, highestC: 44.5, problem: null });
  expect(shown.json().refused).toMatchObject([{ line: 5, text: 'soon 40 12' }]);
  expect(shown.json().from).toBe('2029-05-01T12:00:00.000Z');
  expect((await compare('?year=2029')).batches).toHaveLength(0);
});

test('a batch out of a notebook of one temperature a day is compared like any other, by the day', async () => {
  const kept = await one.app.inject({
    method: 'POST',
    url: '/api/seasons/earlier',
    payload: { ...notebook, keep: true },
  });
  expect(kept.statusCode).toBe(201);
  const [batch] = (await compare('?year=2029')).batches;
  expect(batch).toMatchObject({
    name: 'From the blue notebook',
    outcome: 'sweet',
    pileName: 'Earlier batches, Saltmere Yard',
  });
  // 34 to 44.5 to 41 to 30 °C at one a day: above 40 first seen on the third day; within 35..45 °C by straight lines:
  // 9.5/10.5 of a day up, a day, and 6/11 of a day down.
  expect(batch?.measures).toMatchObject({ hoursTo40: 48, peakC: 44.5, peakAfterH: 48, everyH: 24 });
  expect(batch?.measures.comfortH).toBeCloseTo(24 * (9.5 / 10.5 + 1 + 6 / 11), 6);
  expect(batch?.measures.airMeanC).toBeCloseTo(15, 0);
});

test('a second notebook of the same days lies on a pile of its own; days to come are refused', async () => {
  const second = { ...notebook, name: 'From the red notebook', keep: true };
  expect((await one.app.inject({ method: 'POST', url: '/api/seasons/earlier', payload: second })).statusCode).toBe(201);
  const { batches } = await compare('?year=2029');
  expect(new Set(batches.map(({ pileId }) => pileId)).size).toBe(2);
  expect(batches.map(({ measures }) => measures.peakC)).toEqual([44.5, 44.5]);
  const future = { ...notebook, table: '2041-01-01 20\n2041-01-02 20\n2041-01-03 20', keep: true };
  const refused = await one.app.inject({ method: 'POST', url: '/api/seasons/earlier', payload: future });
  expect(refused.statusCode).toBe(422);
  expect(refused.json().errors[0].pointer).toBe('/table');
});
