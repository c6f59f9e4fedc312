/**
 * What nobody gave of how a bed was laid is nowhere told as given: not where it is stored, shown, printed, taken out, compared, nor
 * in what a batch becomes. What is reckoned with instead stands apart, with where it comes from.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pileDetailSchema } from '../../shared/contracts/piles.ts';
import { batchRecordSchema } from '../../shared/contracts/records.ts';
import { msPerHour } from '../../shared/units.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs = laidMs + 30 * msPerHour;
const site = 'saltmere-yard';
let one: TestInstallation;

const post = async (url: string, payload: object, status = 201) => {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  expect(answer.statusCode, answer.body).toBe(status);
  return answer.json();
};
const get = (url: string) => one.app.inject(url);
/** Once it was looked at: what is assumed is the judge's to say. */
const pileOf = (id: string) =>
  until(`a look at ${id}`, async () => {
    const pile = pileDetailSchema.parse((await get(`/api/piles/${id}`)).json());
    return pile.assumed.length > 0 ? pile : undefined;
  });

beforeAll(async () => {
  one = await openNewTestInstallation({}, { nowMs: () => nowMs, speed: 1 });
  await post('/api/sites', { name: 'Saltmere Yard' });
  const startedAt = new Date(laidMs).toISOString();
  await post('/api/piles', { site, stage: 'bran', startedAt, id: 'bare-bed', name: 'Bare bed' });
  const recipe = {
    material: 'rice-bran',
    depthM: 0.3,
    massKg: 100,
    moistureFrac: 0.6,
    doseFrac: 0.01,
    cover: 'closed',
  };
  await post('/api/piles', { site, stage: 'bran', startedAt, id: 'told-bed', name: 'Told bed', recipe });
});
afterAll(() => one.closeAndRemove());

test('a bed of which nothing was given is stored, shown, recorded and taken out as that', async () => {
  const pile = await pileOf('bare-bed');
  expect(pile.recipe).toEqual({});
  expect(pile.assumed).toContainEqual({ fact: 'depthM', value: 0.29, origin: 'usual-of-stage' });
  expect(pile.assumed).toContainEqual({ fact: 'cover', value: 'breathable', origin: 'usual-of-stage' });
  const id = pile.batch?.id ?? '';
  const record = batchRecordSchema.parse((await get(`/api/batches/${id}/record`)).json());
  expect([record.recipe, record.assumed]).toEqual([{}, pile.assumed]);
  const csv = (await get('/api/export/batches.csv')).body.split('\r\n').map((line) => line.split(','));
  const row = csv.find((cells) => cells.includes(id)) ?? [];
  const cell = (name: string) => row[csv[0]?.indexOf(name) ?? -1];
  expect(['material', 'depthM', 'massKg', 'moistureFrac', 'cover'].map(cell)).toEqual(['', '', '', '', '']);
  const { batches } = (await get('/api/compare?state=all')).json();
  const bare = batches.find((batch: { id: string }) => batch.id === id);
  expect([bare.depthM, bare.cover, bare.material, bare.measures.moistureStartFrac]).toEqual([null, null, null, null]);
});

test('a part keeps what is true of every part; how it lies is assumed to be as the whole lay, and told as that', async () => {
  const { batch } = await pileOf('told-bed');
  await post(
    `/api/batches/${batch?.id}/split`,
    {
      at: new Date(nowMs).toISOString(),
      parts: [{ on: { newPile: { site, id: 'bay-two', name: 'Bay two' } }, massKg: 30 }],
    },
    200,
  );
  const part = await pileOf('bay-two');
  expect(part.recipe).toEqual({ material: 'rice-bran', doseFrac: 0.01, massKg: 30 });
  expect(part.assumed).toEqual(
    expect.arrayContaining([
      { fact: 'depthM', value: 0.3, origin: 'as-the-whole' },
      { fact: 'cover', value: 'closed', origin: 'as-the-whole' },
    ]),
  );
});

test('what comes of batches whose mass was given is reckoned with their sum, and told as not weighed', async () => {
  nowMs += msPerHour;
  const { batch } = await pileOf('told-bed');
  await post(`/api/batches/${batch?.id}/continue`, { stage: 'soil', on: { pileId: 'told-bed' } });
  const soil = await until('the soil stage', async () => {
    const pile = await pileOf('told-bed');
    return pile.stage === 'soil' ? pile : undefined;
  });
  expect(soil.recipe).toEqual({});
  expect(soil.assumed).toContainEqual({ fact: 'massKg', value: 70, origin: 'sum-of-inputs' });
});

for (const [field, value, words] of [
  ['depthM', 'thirty', /number/],
  ['depthM', 30, /at most 300 cm/],
  ['moistureFrac', 6, /at most 95 %/],
  ['massKg', null, /number/],
] as const) {
  test(`${field} ${value} is refused with its field and why, and nothing is laid`, async () => {
    const payload = { site, stage: 'bran', name: 'Odd bed', recipe: { [field]: value } };
    const answer = await one.app.inject({ method: 'POST', url: '/api/piles', payload });
    expect(answer.statusCode).toBe(400);
    expect(answer.json().errors).toMatchObject([{ pointer: `/recipe/${field}`, detail: expect.stringMatching(words) }]);
    expect((await get('/api/piles/odd-bed')).statusCode).toBe(404);
  });
}
