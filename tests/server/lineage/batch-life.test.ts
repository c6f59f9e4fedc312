import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type BatchDetail,
  batchDetailSchema,
  batchesAnswerSchema,
  type LineageAnswer,
  lineageAnswerSchema,
} from '../../../shared/contracts/lineage.ts';
import { type Lot, lotSchema } from '../../../shared/contracts/lots.ts';
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { ago, type Farm, openFarm, site } from '../journal/farm.ts';

let farm: Farm;
beforeAll(async () => {
  farm = await openFarm();
});
afterAll(() => farm.close());

async function lot(payload: object): Promise<Lot> {
  const made = await farm.post('/api/lots', payload);
  expect(made.statusCode).toBe(201);
  return lotSchema.parse(made.json());
}
async function step(url: string, payload: object, status = 200): Promise<BatchDetail> {
  const answer = await farm.post(url, payload);
  expect([answer.statusCode, answer.statusCode === status ? '' : answer.body]).toEqual([status, '']);
  return batchDetailSchema.parse(answer.json());
}
const refusal = async (url: string, payload: object) => {
  const answer = await farm.post(url, payload);
  return [answer.statusCode, problemSchema.parse(answer.json()).errors?.map(({ pointer }) => pointer)];
};
const lineage = async (query: string): Promise<LineageAnswer> =>
  lineageAnswerSchema.parse((await farm.get(`/api/lineage${query}`)).json());

describe('from a wood to two beds', () => {
  let wood: Lot;
  let bran: Lot;
  let branBatchId: string;
  let soil: BatchDetail;

  test('lots say where and when, by whom, and whether organic', async () => {
    wood = await lot({
      name: 'Oak wood, March',
      massKg: 2,
      storage: 'jar in the cool store',
      facts: {
        kind: 'starter',
        collectedPlace: 'oak wood above the terrace',
        collectedAt: ago(800),
        sugar: 'raw cane',
      },
    });
    bran = await lot({
      name: 'Wheat bran',
      massKg: 200,
      facts: {
        kind: 'material',
        material: 'wheat-bran',
        supplier: 'Saltmere Mill',
        lotNumber: '=7',
        organic: 'certified',
      },
    });
    expect(wood.facts).toMatchObject({
      kind: 'starter',
      collectedPlace: 'oak wood above the terrace',
      sugar: 'raw cane',
    });
    const changed = await farm.send('PATCH', `/api/lots/${wood.id}`, { note: 'sweet smell' });
    expect(changed.json()).toMatchObject({ name: 'Oak wood, March', note: 'sweet smell', massKg: 2 });
  });

  test('a batch tells which lots went in, and a slip can be taken back', async () => {
    branBatchId = await farm.addPile('Cart shed', { startedAt: ago(300), recipe: { massKg: 100 } });
    await step(`/api/batches/${branBatchId}/inputs`, { lotId: wood.id, massKg: 0.5 });
    const twice = await step(`/api/batches/${branBatchId}/inputs`, { lotId: wood.id, massKg: 0.5 });
    const slip = twice.inputs[1]?.id ?? '';
    expect((await farm.send('DELETE', `/api/batches/${branBatchId}/inputs/${slip}`)).statusCode).toBe(200);
    expect((await farm.send('DELETE', `/api/batches/${branBatchId}/inputs/${slip}`)).statusCode).toBe(404);
    const detail = await step(`/api/batches/${branBatchId}/inputs`, { lotId: bran.id, massKg: 50 });
    expect(detail.inputs.map(({ name, massKg }) => [name, massKg])).toEqual([
      ['Oak wood, March', 0.5],
      ['Wheat bran', 50],
    ]);
    expect(detail.amounts).toMatchObject({ laidKg: 100, inKg: 50.5, outKg: 0, restKg: 100 });
  });

  test('a part split off becomes a batch of its own, and the rest stays the batch it was', async () => {
    const newPile = { id: 'bay-two', site, name: 'Bay two' };
    const detail = await step(`/api/batches/${branBatchId}/split`, {
      parts: [{ on: { newPile }, massKg: 25, name: 'The warm corner' }],
    });
    expect(detail).toMatchObject({ endedAt: null, amounts: { outKg: 25, restKg: 75 } });
    expect(detail.outputs).toMatchObject([{ way: 'split', massKg: 25, name: 'The warm corner' }]);
    const pile = (await farm.get('/api/piles/bay-two')).json();
    expect(pile).toMatchObject({ name: 'Bay two', stage: 'bran', recipe: { massKg: 25 } });
  });

  test('going on to the soil stage ends it where it lies, with the rest of its mass', async () => {
    soil = await step(
      `/api/batches/${branBatchId}/continue`,
      { stage: 'soil', on: { pileId: 'cart-shed' }, name: 'Spring soil' },
      201,
    );
    expect(soil).toMatchObject({ name: 'Spring soil', stage: 'soil', amounts: { laidKg: null, inKg: 75, restKg: 75 } });
    const before = batchDetailSchema.parse((await farm.get(`/api/batches/${branBatchId}`)).json());
    expect(before).toMatchObject({ ending: 'continued', amounts: { outKg: 100, restKg: 0 } });
    expect(await refusal(`/api/batches/${branBatchId}/uses`, { target: 'bed', place: 'Bed 1' })).toEqual([409, ['']]);
  });

  test('uses say which bed got how much, and the last ends the batch', async () => {
    await step(`/api/batches/${soil.id}/uses`, {
      target: 'bed',
      place: 'Bed 3, upper terrace',
      massKg: 30,
      areaM2: 100,
    });
    const used = await step(`/api/batches/${soil.id}/uses`, { target: 'bed', place: 'Bed 4', all: true });
    expect(used.uses.map(({ place, massKg, rateKgPerM2 }) => [place, massKg, rateKgPerM2])).toEqual([
      ['Bed 3, upper terrace', 30, 0.3],
      ['Bed 4', 45, null],
    ]);
    expect(used).toMatchObject({ ending: 'used', amounts: { outKg: 75, restKg: 0 } });
    expect((await farm.get('/api/piles/cart-shed')).json()).toMatchObject({ batch: null });
  });

  test('which beds got what came from that wood: down from the lot, with their shares of it', async () => {
    const { nodes, flows } = await lineage(`?start=lot:${wood.id}&way=down`);
    const beds = nodes.filter(({ kind }) => kind === 'use');
    expect(beds.map(({ name, step, share }) => [name, step, share])).toEqual([
      ['Bed 3, upper terrace', 3, 0.075], // 0.5 of 2 kg, 75 of 100, 30 of 75
      ['Bed 4', 3, 0.1125],
    ]);
    expect(nodes.map(({ name }) => name)).toContain('The warm corner');
    expect(flows).toHaveLength(5);
  });

  test('and back up from a bed to the wood and the mill', async () => {
    const down = await lineage(`?start=lot:${wood.id}&way=down`);
    const bed = down.nodes.find(({ name }) => name === 'Bed 4');
    const { nodes } = await lineage(`?start=use:${bed?.id}&way=up`);
    expect(nodes.map(({ step, says }) => [step, says.replace(/\d.*$/, '')])).toEqual([
      [0, 'spread on a bed '],
      [-1, 'soil, laid '],
      [-2, 'bran, laid '],
      [-3, 'starter collected at oak wood above the terrace '],
      [-3, 'wheat bran from Saltmere Mill, lot =7, organic: certified'.replace(/\d.*$/, '')],
    ]);
    expect((await farm.get('/api/lineage?start=lot:nope')).statusCode).toBe(404);
    expect((await farm.get('/api/lineage?start=nonsense')).statusCode).toBe(400);
    expect((await lineage('')).nodes.length).toBeGreaterThanOrEqual(7);
  });
});

describe('merging, keeping and giving up', () => {
  test('batches put together become one, with all that went in as its mass', async () => {
    const a = await farm.addPile('North bay', { startedAt: ago(50), recipe: { massKg: 40 } });
    const b = await farm.addPile('South bay', { startedAt: ago(40), recipe: { massKg: 20 } });
    const from = [{ batchId: a }, { batchId: b, massKg: 5, all: false }];
    const soilLot = await lot({ name: 'Bed soil', facts: { kind: 'material', material: 'soil' } });
    const merged = await step(
      '/api/batches/merge',
      { stage: 'soil', on: { pileId: 'north-bay' }, from, inputs: [{ lotId: soilLot.id, massKg: 45 }] },
      201,
    );
    expect(merged).toMatchObject({ pileId: 'north-bay', amounts: { laidKg: null, inKg: 90, restKg: 90 } });
    const states = batchesAnswerSchema.parse((await farm.get('/api/batches?state=open')).json()).batches;
    expect(states.map(({ id }) => id)).toEqual(expect.arrayContaining([b, merged.id]));
    expect(states.map(({ id }) => id)).not.toContain(a);
    expect(
      await refusal('/api/batches/merge', {
        stage: 'soil',
        on: { pileId: 'x' },
        from: [{ batchId: b }, { batchId: b }],
      }),
    ).toEqual([409, ['/from/1/batchId']]);
  });

  test('a whole heap parted ends, and a part may stay where it lay', async () => {
    const id = await farm.addPile('Wide bay', { startedAt: ago(60), recipe: { massKg: 30, depthM: 0.35 } });
    const parts = [
      { on: { pileId: 'wide-bay' }, massKg: 12 },
      { on: { newPile: { site, id: 'narrow-bay', name: 'Narrow bay' } }, massKg: 18, recipe: { depthM: 0.2 } },
    ];
    const parted = await step(`/api/batches/${id}/split`, { parts, all: true });
    expect(parted).toMatchObject({ ending: 'split', amounts: { outKg: 30, restKg: 0 } });
    expect((await farm.get('/api/piles/wide-bay')).json()).toMatchObject({ recipe: { massKg: 12 } });
    expect((await farm.get('/api/piles/narrow-bay')).json()).toMatchObject({ recipe: { massKg: 18, depthM: 0.2 } });
    const { nodes } = await lineage(`?start=batch:${id}&way=down`);
    expect(nodes.map(({ share }) => share).toSorted()).toEqual([0.4, 0.6, 1]);
    expect(await refusal(`/api/batches/${id}/split`, { parts })).toEqual([409, ['']]);
  });

  test('a batch kept as a starter leads on to the next year, and never back to itself', async () => {
    const id = await farm.addPile('Keeping bay', { startedAt: ago(30), recipe: { massKg: 10 } });
    const kept = await step(`/api/batches/${id}/keep`, { name: 'Kept for next spring', massKg: 1 });
    const starter = kept.outputs[0]?.to.id ?? '';
    expect(await refusal(`/api/batches/${id}/inputs`, { lotId: starter })).toEqual([409, ['']]);
    const next = await farm.addPile('Next bay', {});
    await step(`/api/batches/${next}/inputs`, { lotId: starter, massKg: 0.5 });
    const { nodes } = await lineage(`?start=batch:${id}&way=down`);
    expect(nodes.map(({ share }) => share)).toEqual([1, 0.1, 0.05]);
  });

  test('giving a batch up wants a reason, ends it, and nothing can be taken from it after', async () => {
    const id = await farm.addPile('Sour bay', { startedAt: ago(30) });
    expect(await refusal(`/api/batches/${id}/abandon`, { reason: ' ' })).toEqual([400, ['/reason']]);
    const gone = await step(`/api/batches/${id}/abandon`, { reason: 'black all through' });
    expect(gone).toMatchObject({ ending: 'abandoned', reason: 'black all through', amounts: { restKg: 0 } });
    expect((await farm.get('/api/piles/sour-bay')).json()).toMatchObject({ batch: null });
    expect(await refusal(`/api/batches/${id}/continue`, { stage: 'soil', on: { pileId: 'sour-bay' } })).toEqual([
      409,
      [''],
    ]);
  });

  test('a batch that was finished may still be used from its sacks', async () => {
    const id = await farm.addPile('Sack bay', { startedAt: ago(30), recipe: { massKg: 30 } });
    await farm.post('/api/piles/sack-bay/finish', { outcome: 'White all through.' });
    const used = await step(`/api/batches/${id}/uses`, { target: 'compost', place: 'Long heap', massKg: 12 });
    expect(used).toMatchObject({ ending: 'finished', outcome: 'White all through.', amounts: { restKg: 18 } });
    const renamed = await farm.send('PATCH', `/api/batches/${id}`, {
      name: 'Sacks of May',
      outcome: 'Good, a little dry.',
    });
    expect(renamed.json()).toMatchObject({ name: 'Sacks of May', outcome: 'Good, a little dry.' });
  });

  const refusals: [string, string, object, number, string][] = [
    ['a pile that is taken', 'continue', { stage: 'soil', on: { pileId: 'next-bay' } }, 409, '/on/pileId'],
    ['a pile that is not there', 'continue', { stage: 'soil', on: { pileId: 'nope' } }, 409, '/on/pileId'],
    [
      'a new pile under a taken id',
      'continue',
      { stage: 'soil', on: { newPile: { site, id: 'next-bay', name: 'Next bay' } } },
      409,
      '/id',
    ],
    [
      'a site that is not there',
      'continue',
      { stage: 'soil', on: { newPile: { site: 'nowhere', id: 'x', name: 'X' } } },
      409,
      '/site',
    ],
    [
      'a lot that is not there',
      'continue',
      { stage: 'soil', on: { pileId: 'kept-bay' }, inputs: [{ lotId: 'nope' }] },
      409,
      '/inputs/0/lotId',
    ],
    ['a time before it was laid', 'uses', { target: 'bed', place: 'Bed 1', at: ago(99) }, 409, '/at'],
    ['a time to come', 'abandon', { reason: 'x', at: ago(-2) }, 409, '/at'],
    ['a part of no mass', 'split', { parts: [{ on: { pileId: 'x' } }] }, 400, '/parts/0/massKg'],
  ];
  for (const [what, action, payload, status, pointer] of refusals) {
    test(`${action} refuses ${what}, pointing at ${pointer}, and changes nothing`, async () => {
      const known = batchesAnswerSchema.parse((await farm.get('/api/batches?pile=kept-bay')).json()).batches[0];
      const id = known?.id ?? (await farm.addPile('Kept bay', { startedAt: ago(20) }));
      const before = (await lineage('')).nodes.length;
      expect(await refusal(`/api/batches/${id}/${action}`, payload)).toEqual([status, [pointer]]);
      expect((await farm.get(`/api/batches/${id}`)).json()).toMatchObject({ ending: null });
      expect((await lineage('')).nodes.length).toBe(before);
    });
  }
});
