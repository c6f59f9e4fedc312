import { writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readinessSchema } from '../../../shared/contracts/readiness.ts';
import { type BatchRecordSheet, batchRecordSchema } from '../../../shared/contracts/records.ts';
import { type Farm, openFarm } from '../journal/farm.ts';
import { coreC, type RecordedBatch, tellBatch } from './recorded-batch.ts';

let farm: Farm;
let told: RecordedBatch;
let record: BatchRecordSheet;

beforeAll(async () => {
  farm = await openFarm();
  told = await tellBatch(farm);
  record = batchRecordSchema.parse((await farm.get(`/api/batches/${told.id}/record`)).json());
});
afterAll(() => farm.close());

describe('GET /api/batches/:id/record', () => {
  test('holds what went in, with supplier, lot and organic status, and where it came from', () => {
    expect(record.lots.map(({ name, facts, massKgIn }) => [name, facts.kind, massKgIn])).toEqual(
      expect.arrayContaining([
        ['Wheat bran', 'material', 40],
        ['Oak wood, March', 'starter', 0.02],
      ]),
    );
    expect(record.ancestry.map(({ kind, step }) => [kind, step])).toEqual([
      ['lot', -1],
      ['lot', -1],
    ]);
    expect(record.recipe).toMatchObject({ massKg: 96, moistureFrac: 0.6 });
  });

  test('holds each entry once as it stands, oldest first, with a mark on what was corrected', () => {
    expect(record.entries.map(({ says, corrected }) => [says, corrected])).toEqual([
      ['Smells sweet and fermented', false],
      ['Turned', false],
      ['Watered, 6 L', true],
      ['Squeezed: holds together, no drop (right, on the dry side)', false],
      ['Growth, white, all through', false],
      ['Weighed sample, 52 g wet, 23 g dry: moisture 55.8 %, wet basis', false],
      ['Note', false],
      ['Turned', false],
      ['Found ready, smell good, look good', false],
    ]);
  });

  test('adds up the time at temperature from every reading, gaps left out', () => {
    const { hoursAtLeast, highestC, turns, position, unmeasuredH, says } = record.timeTemperature;
    const quarter = (from: number) =>
      Array.from({ length: 170 * 4 - 1 }, (_, i) => [coreC(i / 4), coreC((i + 1) / 4)]).filter((ends) =>
        ends.every((tempC) => Math.round((tempC ?? 0) * 16) / 16 >= from),
      ).length / 4;
    for (const { tempC, totalH } of hoursAtLeast) expect([tempC, totalH]).toEqual([tempC, quarter(tempC)]);
    expect(hoursAtLeast[0]?.totalH).toBeGreaterThan(20);
    expect(highestC).toBeCloseTo(56, 0);
    expect([position, turns]).toEqual(['core', 2]);
    expect(unmeasuredH).toBeGreaterThan(5);
    // The judge's own reckoning: straight lines between readings, so a little more than whole quarters.
    expect(record.pastHeat).toMatchObject({ actC: 50, lossC: 60 });
    const core = record.pastHeat.places.find((place) => place.position === 'core');
    expect(core).toMatchObject({ lossH: 0, mayBeLost: false });
    expect(core?.peakC).toBeCloseTo(56, 0);
    const above50 = hoursAtLeast.find(({ tempC }) => tempC === 50)?.totalH ?? Number.NaN;
    expect(core?.actH).toBeGreaterThanOrEqual(above50);
    expect(core?.actH).toBeLessThan(above50 + 1);
    expect(says.join(' ')).toMatch(/Not sanitised.*not a certification/s);
  });

  test('draws a curve per position, with no more points than paper can show', () => {
    expect(record.curves.temperatureC.map(({ position }) => position)).toEqual(['core', 'top', 'air']);
    for (const { points } of record.curves.temperatureC) {
      expect(points.length).toBeLessThanOrEqual(600);
      expect(points.every(({ min, mean, max }) => min <= mean && mean <= max)).toBe(true);
    }
  });
});

test('GET /api/batches/:id/readiness lays the heat beside the person’s word', async () => {
  const readiness = readinessSchema.parse((await farm.get(`/api/batches/${told.id}/readiness`)).json());
  expect(readiness.signs.map(({ sign, evidence }) => [sign, evidence])).toEqual([
    ['heat-came', 'present'],
    ['not-overheated', 'present'],
    ['heat-fell', 'present'],
    ['no-reheat', 'present'],
  ]);
  expect(readiness).toMatchObject({ ready: true, person: { smell: 'good', by: 'Ines' } });
  expect(readiness.says).toMatch(/found it ready by smell and look; its heat came and went/);
});

test('GET /api/batches/:id/record.pdf is a PDF of a few pages with embedded fonts', async () => {
  const answer = await farm.get(`/api/batches/${told.id}/record.pdf`);
  expect(answer.statusCode).toBe(200);
  expect(answer.headers).toMatchObject({
    'content-type': 'application/pdf',
    'content-disposition': expect.stringMatching(/^attachment; filename="record-[a-z0-9-]+\.pdf"$/),
  });
  const text = answer.rawPayload.toString('latin1');
  expect(text.startsWith('%PDF-1.')).toBe(true);
  expect(text.trimEnd().endsWith('%%EOF')).toBe(true);
  expect(text).toMatch(/\/Subtype\s*\/CIDFontType2/);
  const pages = Number(/\/Type \/Pages\n\/Count (\d+)/.exec(text)?.[1]);
  expect(pages).toBeGreaterThanOrEqual(2);
  expect(pages).toBeLessThanOrEqual(6);
  // BRANHEARTH_TEST_KEEP=<folder> leaves it there to be looked at.
  const keep = process.env.BRANHEARTH_TEST_KEEP;
  if (keep) writeFileSync(`${keep}/record.pdf`, answer.rawPayload);
});

test('a batch without anything written down or measured has a record all the same', async () => {
  const id = await farm.addPile('Bare bay');
  const bare = batchRecordSchema.parse((await farm.get(`/api/batches/${id}/record`)).json());
  expect(bare).toMatchObject({ entries: [], lots: [], alarms: [], curves: { temperatureC: [] } });
  expect(bare.timeTemperature).toMatchObject({ position: null, highestC: null });
  expect((await farm.get(`/api/batches/${id}/record.pdf`)).rawPayload.length).toBeGreaterThan(5_000);
  expect((await farm.get('/api/batches/nope/record')).statusCode).toBe(404);
  expect((await farm.get('/api/batches/nope/record.pdf')).statusCode).toBe(404);
});
