import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { csvLine, withoutGuard } from '../../../server/services/records/export/csv.ts';
import { exportSubjects } from '../../../shared/contracts/records.ts';
import { type Farm, openFarm } from '../journal/farm.ts';
import { type RecordedBatch, tellBatch } from './recorded-batch.ts';

let farm: Farm;
let told: RecordedBatch;
beforeAll(async () => {
  farm = await openFarm();
  told = await tellBatch(farm);
});
afterAll(() => farm.close());

type Table = Record<string, string>[];
/** Read by a parser that is not ours. */
const read = (csv: string): Table => parse(csv, { columns: true, bom: true });

describe('csvLine()', () => {
  test('any text comes back as it was, and no cell begins as a formula', () => {
    const text = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.string({ unit: fc.constantFrom(...'=+-@"\',;|\r\n\t 1a＝') }),
    );
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 6 }), (cells) => {
        const [row] = parse(csvLine(cells), { relax_column_count: true, skip_empty_lines: false }) as string[][];
        expect(row?.map(withoutGuard)).toEqual(cells);
        for (const cell of row ?? []) expect(cell).not.toMatch(/^[=+\-@\t\r＝＋－＠]/);
      }),
      { seed: 20310407, numRuns: 500 },
    );
  });

  test('no cell begins as a formula in a program that parts cells by another sign, quotation marks or not', () => {
    const text = fc.string({ unit: fc.constantFrom(...'=+-@"\';|\t\r\n 1a＝'), maxLength: 12 });
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 4 }), (cells) => {
        const line = csvLine(cells);
        for (const parting of [/[;\r\n]/, /[\t\r\n]/, /[|\r\n]/]) {
          // The first piece begins with our own first cell, which has a test of its own.
          for (const piece of line.split(parting).slice(1)) expect(piece).not.toMatch(/^["\s]*[=+\-@＝＋－＠]/);
        }
      }),
      { seed: 20310407, numRuns: 1000 },
    );
    expect(csvLine(['8 L;=1+1'])).toBe(`"8 L;'=1+1"\r\n`);
  });

  test('numbers stay numbers, also below zero', () => {
    expect(csvLine([-3.5, 0, null, true, Number.NaN, '-3.5'])).toBe(`-3.5,0,,yes,,"'-3.5"\r\n`);
  });
});

describe('GET /api/export/:subject.csv and .json', () => {
  for (const subject of exportSubjects) {
    test(`${subject} hold the same in both, with the same columns in each row`, async () => {
      const [csv, json] = await Promise.all(
        ['csv', 'json'].map((format) => farm.get(`/api/export/${subject}.${format}`)),
      );
      expect(csv?.headers).toMatchObject({
        'content-type': 'text/csv; charset=utf-8; header=present',
        'content-disposition': `attachment; filename="${subject}.csv"`,
        'cache-control': 'private, no-store',
      });
      const rows = read(csv?.body ?? '');
      const same = (json?.json<Record<string, unknown>[]>() ?? []).map((row) =>
        Object.fromEntries(
          Object.entries(row).map(([key, value]) => [
            key,
            value === null ? '' : value === true ? 'yes' : value === false ? 'no' : String(value),
          ]),
        ),
      );
      expect(
        rows.map((row) => Object.fromEntries(Object.entries(row).map(([key, cell]) => [key, withoutGuard(cell)]))),
      ).toEqual(same);
      if (subject !== 'alarms') expect(rows.length).toBeGreaterThan(0);
    });
  }

  test('a note that looks like a formula is made harmless', async () => {
    const rows = read((await farm.get('/api/export/entries.csv')).body);
    expect(rows.map(({ note }) => note)).toContain(`'=HYPERLINK("http://example.org","look")`);
  });

  test('entries and their earlier versions together are all that was ever said', async () => {
    const now = read((await farm.get('/api/export/entries.csv')).body);
    const before = read((await farm.get('/api/export/earlier-versions.csv')).body);
    expect(before).toMatchObject([{ kind: 'watered', amountL: '60', version: '1' }]);
    expect(now.find(({ id }) => id === before[0]?.id)).toMatchObject({
      amountL: '6',
      version: '2',
      reason: 'one nought too many',
    });
  });

  test('an unknown subject is refused', async () => {
    expect((await farm.get('/api/export/secrets.csv')).statusCode).toBe(400);
  });
});

test('GET /api/export/all.json holds every subject', async () => {
  const all = (await farm.get('/api/export/all.json')).json<Record<string, unknown[]>>();
  expect(Object.keys(all)).toEqual(['program', 'version', 'madeAt', ...exportSubjects]);
  for (const subject of exportSubjects) {
    const alone = (await farm.get(`/api/export/${subject}.json`)).json<unknown[]>();
    expect(all[subject]).toEqual(alone);
  }
});

test('GET /api/batches/:id/readings.csv holds each reading once, in order of time, with its position and unit', async () => {
  const rows = read((await farm.get(`/api/batches/${told.id}/readings.csv`)).body);
  expect(rows).toHaveLength(170 * 4 * 3 - 19); // three probes at four an hour; the core silent for 19 of them
  const times = rows.map(({ time }) => time ?? '');
  expect(times).toEqual(times.toSorted());
  expect(rows[0]).toMatchObject({ site: 'saltmere-yard', quantity: 'temperature', unit: '°C' });
  expect(new Set(rows.map(({ probe, position }) => `${probe} ${position}`))).toEqual(
    new Set(['heap-core core', 'heap-top top', 'yard-air air']),
  );
  const json = (await farm.get(`/api/batches/${told.id}/readings.json`)).json<unknown[]>();
  expect(json).toHaveLength(rows.length);
  expect((await farm.get('/api/batches/nope/readings.csv')).statusCode).toBe(404);
});
