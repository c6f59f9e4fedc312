import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  datesAnswerSchema,
  dilutionAnswerSchema,
  mixAnswerSchema,
  waterAnswerSchema,
} from '../../shared/contracts/plan.ts';
import { problemSchema } from '../../shared/contracts/problem.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

let one: TestInstallation;
beforeAll(async () => {
  one = await openNewTestInstallation();
});
afterAll(() => one.closeAndRemove());

const post = (what: string, payload: object) => one.app.inject({ method: 'POST', url: `/api/plan/${what}`, payload });

describe('POST /api/plan/dilution', () => {
  test('answers the starter in either reading', async () => {
    const ask = { waterL: 10, ratio: 500 };
    const partIn = dilutionAnswerSchema.parse((await post('dilution', { ...ask, convention: 'part-in' })).json());
    const partPlus = dilutionAnswerSchema.parse((await post('dilution', { ...ask, convention: 'part-plus' })).json());
    expect([partIn.starterMl, partPlus.starterMl.toFixed(2)]).toEqual([20, '19.96']);
    expect(partIn.actualRatio).toBeUndefined();
  });
  test('finds a measured amount several times off', async () => {
    const answer = await post('dilution', { waterL: 8, ratio: 500, convention: 'part-in', measuredMl: 100 });
    expect(answer.json()).toMatchObject({ starterMl: 16, actualRatio: 80, factorOff: 6.25 });
  });
  test('answers what the starter on hand makes', async () => {
    const answer = await post('dilution', { onHandMl: 20, ratio: 500, convention: 'part-in' });
    expect(answer.json()).toMatchObject({ liquidL: 10, onHand: { makesL: 10, enough: true } });
  });
});

describe('POST /api/plan/water', () => {
  test('answers water, first portion and free air space, with working and defaults', async () => {
    const answer = waterAnswerSchema.parse(
      (await post('water', { materialKg: 10, moistureNow: 0.12, moistureTarget: 0.6, starterL: 2 })).json(),
    );
    expect(answer.waterKg).toBeCloseTo(10, 9);
    expect(answer.firstPortionKg).toBeCloseTo(7, 9);
    // 184.8 kg of dry matter per m3, from FAO's 210 at 12 %: 1 − 184.8 / 1500 − 184.8 × 1.5 / 1000.
    expect(answer.freeAirSpace).toBeCloseTo(0.5996, 4);
    expect(answer.working[0]).toMatchObject({ what: 'liquid to the target', unit: 'kg' });
    expect(answer.defaults.every(({ unit, origin }) => unit !== '' && origin !== '')).toBe(true);
  });
  test('answers a target below the present moisture with no water', async () => {
    const answer = await post('water', { materialKg: 10, moistureNow: 0.7, moistureTarget: 0.6 });
    expect(answer.json()).toMatchObject({ verdict: 'too-wet', waterKg: 0, firstPortionKg: 0 });
  });
});

describe('POST /api/plan/mix', () => {
  const bran = { material: 'wheat-bran', moisture: 0.6, bulkDensityKgM3: 440 };
  const soil = { material: 'soil', moisture: 0.2, bulkDensityKgM3: 1200 };

  test('answers half and half by mass and by volume differently', async () => {
    const byMass = await post('mix', {
      by: 'mass',
      materials: [
        { ...bran, massKg: 1 },
        { ...soil, massKg: 1 },
      ],
    });
    const byVolume = await post('mix', {
      by: 'volume',
      materials: [
        { ...bran, volumeL: 1 },
        { ...soil, volumeL: 1 },
      ],
    });
    const moistures = [byMass, byVolume].map((answer) => mixAnswerSchema.parse(answer.json()).moisture.toFixed(3));
    expect(moistures).toEqual(['0.400', '0.307']);
  });
  test('answers water, ground, area and dates in one go', async () => {
    const answer = mixAnswerSchema.parse(
      (
        await post('mix', {
          by: 'volume',
          materials: [
            { ...bran, volumeL: 100 },
            { ...soil, volumeL: 100 },
          ],
          moistureTarget: 0.4,
          stage: 'soil',
          widthM: 1,
          spread: { by: 'depth', depthM: 0.02 },
          startAt: '2031-04-05T08:00:00+02:00',
          units: { mass: 'lb', volume: 'gal', length: 'ft', temperature: 'F' },
        })
      ).json(),
    );
    expect(answer.footprint).toMatchObject({ depthM: 0.2, widthM: 1 });
    expect([answer.footprint?.lengthM, answer.spread?.areaM2].map((value) => value?.toFixed(9))).toEqual([
      '1.000000000',
      '10.000000000',
    ]);
    expect(answer.dates[0]).toMatchObject({ kind: 'check', at: '2031-04-06T06:00:00.000Z' });
    expect(answer.says).toContain('US gal of wheat bran');
  });
});

test('POST /api/plan/dates answers turns, checks and the days in which it is likely to be ready', async () => {
  const answer = await post('dates', { startAt: 1_932_000_000, stage: 'bran', airC: 25 });
  const { dates } = datesAnswerSchema.parse(answer.json());
  expect(dates.map(({ kind }) => kind)).toEqual(['check', 'turn', 'check', 'turn', 'check', 'ready', 'check']);
});

describe('a request that cannot be planned is refused with a pointer and a reason', () => {
  const dilution = { waterL: 8, ratio: 500, convention: 'part-in' };
  const water = { materialKg: 10, moistureNow: 0.12, moistureTarget: 0.6 };
  const weighed = { material: 'wheat-bran', massKg: 10 };
  const other = { material: 'other', massKg: 10, moisture: 0.4 };
  const rows: [what: string, ask: object, pointer: string, words: RegExp][] = [
    ['dilution', { ...dilution, waterL: undefined }, '/waterL', /is needed, or else onHandMl/],
    ['dilution', { ...dilution, waterL: 0 }, '/waterL', /at least 0.001.L/],
    ['dilution', { ...dilution, waterL: '8' }, '/waterL', /Must be a number/],
    ['dilution', { ...dilution, ratio: 0.5 }, '/ratio', /at least 1/],
    ['dilution', { ...dilution, ratio: undefined }, '/ratio', /Must be given/],
    ['dilution', { ...dilution, convention: '1:500' }, '/convention', /1 part in N of the finished liquid/],
    ['dilution', { ...dilution, measuredMl: 8000 }, '/measuredMl', /less than the liquid/],
    ['dilution', { ...dilution, measuredMl: -1 }, '/measuredMl', /at least/],
    ['dilution', { ratio: 500, convention: 'part-in', onHandMl: 5, measuredMl: 2 }, '/waterL', /is needed to judge/],
    ['dilution', { ...dilution, units: { volume: 'pint' } }, '/units/volume', /./],
    ['water', { ...water, moistureTarget: 60 }, '/moistureTarget', /60 % is 0.6/],
    ['water', { ...water, moistureNow: 12 }, '/moistureNow', /fraction of the wet mass/],
    ['water', { ...water, moistureTarget: 0.95 }, '/moistureTarget', /from 0.05 to 0.9/],
    ['water', { ...water, materialKg: -3 }, '/materialKg', /at least/],
    ['water', { ...water, materialKg: null }, '/materialKg', /Must be a number/],
    ['water', { ...water, starterL: -1 }, '/starterL', /Must be at least 0.L/],
    ['water', { ...water, material: 'gravel' }, '/material', /wheat-bran, rice-bran/],
    ['water', { materialKg: 10, material: 'other' }, '/moistureNow', /is needed/],
    ['water', { ...water, bulkDensityKgM3: 0.2 }, '/bulkDensityKgM3', /weigh 10.L/],
    ['mix', { materials: [weighed] }, '/by', /parts by mass and parts by volume are different/],
    ['mix', { by: 'mass', materials: [] }, '/materials', /at least one/],
    ['mix', { by: 'mass', materials: Array(21).fill(weighed) }, '/materials', /at most 20/],
    ['mix', { by: 'volume', materials: [weighed] }, '/materials/0/volumeL', /Must be given/],
    ['mix', { by: 'mass', materials: [{ material: 'other', massKg: 1 }] }, '/materials/0/moisture', /is needed/],
    [
      'mix',
      { by: 'mass', materials: [weighed, other], spread: { by: 'depth', depthM: 0.02 } },
      '/materials/1/bulkDensityKgM3',
      /is needed/,
    ],
    ['mix', { by: 'mass', materials: [weighed], wanted: { of: 'area', areaM2: 5 } }, '/spread', /is needed/],
    [
      'mix',
      { by: 'mass', materials: [weighed], wanted: { of: 'material', index: 1, amount: 5 } },
      '/wanted/index',
      /place/,
    ],
    ['mix', { by: 'mass', materials: [weighed], startAt: '2031-04-05T06:00:00Z' }, '/stage', /needed for dates/],
    ['mix', { by: 'mass', materials: [{ ...weighed, carbonFrac: 45 }] }, '/materials/0/carbonFrac', /45 % is 0.45/],
    ['mix', { by: 'mass', materials: [weighed], depthM: 5 }, '/depthM', /at most 300.cm/],
    ['dates', { startAt: 'tomorrow', stage: 'bran' }, '/startAt', /RFC 3339/],
    ['dates', { startAt: '2031-04-05T06:00:00Z', stage: 'jam' }, '/stage', /./],
  ];
  for (const [what, ask, pointer, words] of rows) {
    test(`${what} ${JSON.stringify(ask).slice(0, 90)}: ${pointer}`, async () => {
      const answer = await post(what, ask);
      expect(answer.statusCode).toBe(400);
      expect(answer.headers['content-type']).toContain('application/problem+json');
      const found = problemSchema.parse(answer.json()).errors?.find((error) => error.pointer === pointer);
      expect(found?.detail).toMatch(words);
    });
  }
});

test('every number a plan accepts, at the ends of its range, is answered with finite numbers', async () => {
  const ends = (...values: number[]) => fc.constantFrom(...values);
  const ask = fc.record({
    materialKg: ends(0.001, 1_000_000),
    material: fc.constantFrom('wheat-bran', 'rice-bran', 'soil', 'compost', 'other'),
    moistureNow: ends(0, 0.95),
    moistureTarget: ends(0.05, 0.9),
    starterL: ends(0, 1_000_000),
    waterMeantL: ends(0, 1_000_000),
    bulkDensityKgM3: ends(20, 2500),
  });
  await fc.assert(
    fc.asyncProperty(ask, async (payload) => {
      // JSON writes null for a number that is not finite, and the schema would refuse it.
      const answer = await post('water', payload);
      expect(answer.statusCode).toBe(200);
      expect(waterAnswerSchema.parse(answer.json()).freeAirSpace).not.toBeNull();
    }),
    { seed: 20_310_407, numRuns: 60 },
  );
  for (const convention of ['part-in', 'part-plus']) {
    for (const ratio of [1, 100_000]) {
      for (const waterL of [0.001, 1_000_000]) {
        const answer = await post('dilution', { waterL, ratio, convention, measuredMl: waterL * 500, onHandMl: 0.001 });
        expect([waterL, ratio, answer.statusCode]).toEqual([waterL, ratio, 200]);
      }
    }
  }
});

test('GET /api/openapi.json describes the planner', async () => {
  const { paths } = (await one.app.inject({ url: '/api/openapi.json' })).json<{ paths: object }>();
  expect(Object.keys(paths)).toEqual(
    expect.arrayContaining(['/api/plan/dilution', '/api/plan/water', '/api/plan/mix', '/api/plan/dates']),
  );
});
