import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type ImportAsk,
  type ImportPreview,
  importDoneSchema,
  importPreviewSchema,
} from '../../../shared/contracts/import.ts';
import { entriesAnswerSchema } from '../../../shared/contracts/journal.ts';
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { seriesAnswerSchema } from '../../../shared/contracts/series.ts';
import { ago, type Farm, hourMs, openFarm, site } from '../journal/farm.ts';

let farm: Farm;
beforeAll(async () => {
  farm = await openFarm();
  await farm.addPile('Cart shed', { startedAt: ago(100) });
});
afterAll(() => farm.close());

const preview = async (ask: ImportAsk): Promise<ImportPreview> => {
  const answer = await farm.post('/api/import/preview', ask);
  expect([answer.statusCode, answer.statusCode === 200 ? '' : answer.body]).toEqual([200, '']);
  return importPreviewSchema.parse(answer.json());
};
const commit = async (ask: ImportAsk, digest: string) =>
  importDoneSchema.parse((await farm.post('/api/import/commit', { ...ask, digest })).json());
const at = (hours: number) => new Date(Math.floor(Date.now() / hourMs) * hourMs - hours * hourMs).toISOString();

describe('readings from a file', () => {
  const ask = (): ImportAsk => ({
    kind: 'readings',
    site,
    probe: 'p1',
    csv: [
      'Time;Core temperature (°F);Air RH %;Battery mV;Notes',
      `${at(30)};104,5;96;3600;fine`,
      `${at(29)};105,8;;3590;`,
      `${at(28)};not yet;97;3590;`,
      `${at(27)};-196,6;98;;"a fault, surely"`,
      'some day;104;97;3580;',
      `${at(-20)};104;97;3580;`,
      ';;;;',
      `${at(26)};;;;`,
    ].join('\r\n'),
  });

  test('the preview says what each column became and refuses each bad row and cell with its reason', async () => {
    const shown = await preview(ask());
    expect([shown.delimiter, shown.decimalComma, shown.problem]).toEqual([';', true, null]);
    expect(shown.columns.map(({ heading, says }) => [heading, says])).toEqual([
      ['Time', 'when'],
      ['Core temperature (°F)', 'temperature of the probe core, in °F'],
      ['Air RH %', 'humidity of the probe air, in %RH'],
      ['Battery mV', 'battery of the probe p1, in mV'],
      ['Notes', 'left out'],
    ]);
    expect(shown.columns[1]?.examples).toEqual(['104,5', '105,8', 'not yet']);
    expect(shown.rows).toEqual({ total: 8, accepted: 4, refused: 4, cellsRefused: 2, readings: 8 });
    expect(shown.refused.map(({ line, column, reason }) => [line, column, reason])).toEqual([
      [4, 'Core temperature (°F)', '"not yet" is not a number.'],
      [
        5,
        'Core temperature (°F)',
        expect.stringMatching(/must be within −55 °C to 125 °C: found -196.6 F .*disconnected one-wire probe/),
      ],
      [6, 'Time', '"some day" is not a time such as 2031-04-05 06:07 or 2031-04-05T06:07:08Z.'],
      [7, null, expect.stringMatching(/^Cannot accept a reading from the future/)],
      [8, 'Time', 'There is no time in this row.'],
      [9, null, 'There is no value in this row.'],
    ]);
    expect(shown.refused[1]?.reason).toMatch(/disconnected one-wire probe/);
    expect(shown.readings[0]).toEqual({ site, probe: 'core', quantity: 'temperature', at: at(30), value: 40.277778 });
    expect([shown.from, shown.to]).toEqual([at(30), at(27)]);
    expect((await farm.get('/api/probes')).json()).toMatchObject({ probes: [], total: 0 }); // nothing was kept
  });

  test('kept as shown, once however often, and the judge hears of it', async () => {
    const { digest } = await preview(ask());
    expect(await commit(ask(), digest)).toEqual({ kept: 8, known: 0, conflicting: 0, downsampled: 0, refused: 6 });
    expect(await commit(ask(), digest)).toEqual({ kept: 0, known: 8, conflicting: 0, downsampled: 0, refused: 6 });
    await farm.post(`/api/probes/${site}/core/claim`, { pileId: 'cart-shed', position: 'core', from: at(90) });
    const series = seriesAnswerSchema.parse((await farm.get('/api/piles/cart-shed/series')).json());
    expect(series.positions.core?.temperatureC?.map(({ mean }) => mean)).toEqual([40.278, 41]);
    const later = { ...ask(), csv: `time,core temperature °C\n${at(25)},44\n${at(29)},40` };
    const { digest: next } = await preview(later);
    expect(await commit(later, next)).toEqual({ kept: 1, known: 0, conflicting: 1, downsampled: 0, refused: 0 });
    expect(farm.one.installation.watching?.get('cart-shed')?.watch.hasNews).toBe(true);
  });

  test('another file, or other choices, than the preview showed are refused', async () => {
    const { digest } = await preview(ask());
    for (const other of [
      { ...ask(), csv: `${ask().csv}\n` },
      { ...ask(), temperatureUnit: 'F' as const },
    ]) {
      const answer = await farm.post('/api/import/commit', { ...other, digest });
      expect([answer.statusCode, problemSchema.parse(answer.json()).errors?.[0]?.pointer]).toEqual([409, '/digest']);
    }
  });

  test('the person may say otherwise than was guessed', async () => {
    const csv = `when,Wert\n${at(9)},21.5`;
    expect((await preview({ kind: 'readings', csv, site, probe: 'p2' })).problem).toMatch(/No column holds values/);
    const columns = { Wert: { as: 'value', quantity: 'temperature' } } as const;
    const shown = await preview({ kind: 'readings', csv, site, probe: 'p2', columns });
    expect([shown.problem, shown.readings]).toEqual([
      null,
      [{ site, probe: 'p2', quantity: 'temperature', at: at(9), value: 21.5 }],
    ]);
  });

  test('a one-wire chip’s 85 °C out of nothing is refused, a heap that is that hot is not', async () => {
    const rows = (values: number[]) => values.map((value, i) => `${at(20 - i)},${value}`).join('\n');
    const ask = (values: number[]): ImportAsk => ({
      kind: 'readings',
      site,
      probe: 'p3',
      csv: `time,temperature\n${rows(values)}`,
    });
    expect((await preview(ask([21, 85, 21.5]))).refused.map(({ line }) => line)).toEqual([3]);
    expect((await preview(ask([82, 85, 84]))).refused).toEqual([]);
  });

  test('our own export of readings is known when it is taken in again', async () => {
    const batchId = (await farm.get('/api/piles/cart-shed')).json<{ batch: { id: string } }>().batch.id;
    const csv = (await farm.get(`/api/batches/${batchId}/readings.csv`)).body;
    const { digest, problem, rows } = await preview({ kind: 'readings', csv });
    expect([problem, rows.refused]).toEqual([null, 0]);
    expect(await commit({ kind: 'readings', csv }, digest)).toEqual({
      kept: 0,
      known: rows.readings,
      conflicting: 0,
      downsampled: 0,
      refused: 0,
    });
  });

  const unreadable: [string, string, RegExp][] = [
    ['an open quotation mark', 'time,core\n"2031-01-01,4', /cannot be read as a table/],
    ['no line at all', '\n\n', /no heading/],
  ];
  for (const [what, csv, why] of unreadable) {
    test(`a file with ${what} is refused, pointing at it`, async () => {
      const answer = await farm.post('/api/import/preview', { kind: 'readings', csv });
      const problem = problemSchema.parse(answer.json());
      expect([answer.statusCode, problem.errors?.[0]?.pointer]).toEqual([422, '/csv']);
      expect(problem.detail).toMatch(why);
    });
  }
});

describe('entries from a file', () => {
  const csv = [
    'Date,Time,Heap,What,Litres,Who,Notes',
    `14/02/2026,07:30,Cart shed,turn,,Ines,"steam, much of it"`,
    `15/02/2026,07:30,cart-shed,watered,12.5,Ines,`,
    `15/02/2026,08:00,Cart shed,danced,,Ines,`,
    `15/02/2026,08:00,No such heap,turned,,,`,
    `16/02/2026,07:30,Cart shed,,,,Cold night.`,
    `16/02/2026,07:40,Cart shed,watered,-3,,`,
  ].join('\n');
  const ask: ImportAsk = { kind: 'entries', csv, timeZone: 'Europe/Lisbon' };

  test('are shown as they would be kept, and each refused row has its reason', async () => {
    const shown = await preview(ask);
    expect(shown.entries.map(({ at, says, note, by }) => [at, says, note, by])).toEqual([
      ['2026-02-14T07:30:00.000Z', 'Turned', 'steam, much of it', 'Ines'],
      ['2026-02-15T07:30:00.000Z', 'Watered, 12.5 L', null, 'Ines'],
      ['2026-02-16T07:30:00.000Z', 'Note', 'Cold night.', null],
    ]);
    expect(shown.refused.map(({ line, column }) => [line, column])).toEqual([
      [4, 'What'],
      [5, 'Heap'],
      [7, 'Litres'],
    ]);
  });

  test('are kept once however often, with their own times', async () => {
    const { digest } = await preview(ask);
    expect(await commit(ask, digest)).toEqual({ kept: 3, known: 0, conflicting: 0, downsampled: 0, refused: 3 });
    expect(await commit(ask, digest)).toEqual({ kept: 0, known: 3, conflicting: 0, downsampled: 0, refused: 3 });
    const kept = entriesAnswerSchema.parse((await farm.get('/api/piles/cart-shed/entries')).json()).entries;
    expect(kept.map(({ at }) => at)).toEqual(
      expect.arrayContaining(['2026-02-14T07:30:00.000Z', '2026-02-16T07:30:00.000Z']),
    );
  });

  test('our own export is known when it is taken in again, notes that look like formulas too', async () => {
    await farm.post('/api/piles/cart-shed/entries', { what: { kind: 'note' }, note: '=1+1', at: ago(5) });
    await farm.post('/api/piles/cart-shed/entries', { what: { kind: 'smell', smells: ['sweet', 'sour'] }, at: ago(4) });
    await farm.post('/api/piles/cart-shed/entries', {
      what: { kind: 'pests', what: 'flies', amount: 'few' },
      at: ago(3),
    });
    await farm.post('/api/piles/cart-shed/entries', {
      what: { kind: 'readiness', smell: 'good', look: 'good', ready: true },
      at: ago(2),
    });
    const own: ImportAsk = { kind: 'entries', csv: (await farm.get('/api/export/entries.csv')).body };
    const shown = await preview(own);
    expect([shown.problem, shown.refused]).toEqual([null, []]);
    expect(await commit(own, shown.digest)).toEqual({
      kept: 0,
      known: shown.rows.total,
      conflicting: 0,
      downsampled: 0,
      refused: 0,
    });
  });
});

describe('a file made to hold the reader up', () => {
  const ask = (csv: string): ImportAsk => ({ kind: 'readings', site, probe: 'p1', csv });
  const longest = 4_000;

  test('has each cell refused that is longer than any we read, and the others are taken', async () => {
    const csv = [
      'time,core temperature (°C),remarks',
      `${at(10)},${' '.repeat(60_000)}4,`,
      `${at(9)},${'1'.repeat(60_000)},`,
      `${at(8)},${'1'.repeat(longest)},`,
      `${at(7)},41,${'what nobody reads may be long '.repeat(2_000)}`,
    ].join('\n');
    const shown = await preview(ask(csv));
    expect(shown.refused.map(({ line, column, reason }) => [line, column, reason])).toEqual([
      [2, 'core temperature (°C)', 'A cell has at most 4000 characters, and this one has 60001.'],
      [3, 'core temperature (°C)', 'A cell has at most 4000 characters, and this one has 60000.'],
      [4, 'core temperature (°C)', 'A number has at most 60 characters, and this cell has 4000.'],
    ]);
    expect(shown.rows.accepted).toBe(1);
  });

  test('is refused whole when it has more columns than any table of readings', async () => {
    const answer = await farm.post('/api/import/preview', ask(`time,${'core,'.repeat(20_000)}\n`));
    expect(answer.statusCode).toBe(422);
    expect(problemSchema.parse(answer.json()).detail).toMatch(/has 20,002 columns, and at most 200 are read/);
  });
});

describe('what was measured by hand, from a table', () => {
  test('comes in as entries and readings of the place, with a decimal comma', async () => {
    await farm.addPile('Notebook', { id: 'notebook', startedAt: ago(60) });
    const ask: ImportAsk = {
      kind: 'entries',
      pileId: 'notebook',
      csv: ['time;kind;position;temperatureC', `${at(30)};measured;core;38,5`, `${at(18)};measured;core;41`].join('\n'),
    };
    const { digest, rows } = await preview(ask);
    expect(rows).toMatchObject({ accepted: 2, refused: 0 });
    expect(await commit(ask, digest)).toMatchObject({ kept: 2, refused: 0 });
    const shown = seriesAnswerSchema.parse((await farm.get('/api/piles/notebook/series')).json());
    expect(shown.byHand?.map(({ position, temperatureC }) => [position, temperatureC])).toEqual([
      ['core', 38.5],
      ['core', 41],
    ]);
  });

  test.each([
    ['°F in the heading', 'when;temperature (°F)', `${at(10)};104`, 40],
    ['°F in the cell', 'when;what;where;temp', `${at(9)};thermometer;middle;104 °F`, 40],
    ['a notebook in °C', 'date time;what;spot;temperature °C', `${at(8)};Temp;heart;41,5`, 41.5],
    ['a column of our own export stays in °C', 'time;kind;position;temperatureC', `${at(7)};measured;core;43`, 43],
  ])('is read as written: %s', async (_what, headings, row, temperatureC) => {
    const { entries, problem, refused } = await preview({
      kind: 'entries',
      pileId: 'notebook',
      csv: `${headings}\n${row}`,
    });
    expect([problem, refused, entries[0]?.what]).toEqual([
      null,
      [],
      { kind: 'measured', position: 'core', temperatureC },
    ]);
  });

  test('is read in °F where the person says so and nothing in the file does', async () => {
    const csv = `time;place;kind;temperature;moisture\n${at(6)};;measurement;122;35`;
    const ask: ImportAsk = { kind: 'entries', pileId: 'notebook', temperatureUnit: 'F', csv };
    expect((await preview(ask)).entries[0]?.what).toEqual({
      kind: 'measured',
      position: 'core',
      temperatureC: 50,
      moisturePct: 35,
    });
  });

  test('words of a notebook for kinds are understood, and others named with those that are', async () => {
    const words = ['Turned over', 'wetted', 'mould', 'Remark', 'juggled'];
    const csv = ['time;kind;colour;note', ...words.map((word, i) => `${at(5 - i / 10)};${word};white;x`)].join('\n');
    const { entries, refused } = await preview({ kind: 'entries', pileId: 'notebook', csv });
    expect(entries.map(({ what }) => what.kind).sort()).toEqual(['growth', 'note', 'turned', 'watered']);
    expect(refused.map(({ reason }) => reason)).toMatchObject([expect.stringContaining('"juggled" is none of')]);
  });

  test('is no reading of a probe when a file of our own is brought back', async () => {
    const csv = `time,site,probe,quantity,value,unit\n${at(30)},${site},hand:notebook:core:1,temperature,38.5,°C`;
    expect((await preview({ kind: 'readings', csv })).refused.map(({ column, reason }) => [column, reason])).toEqual([
      ['probe', 'This was measured by hand: bring it in with the entries.'],
    ]);
  });
});

describe('a body that is no file with how to read it', () => {
  const csv = `time,temperature\n${at(3)},40`;
  test.each([
    ['is no JSON', '{"kind": "readings", ', 'The body is not JSON'],
    ['is empty', '', 'JSON'],
    ['sets what every object has', `{"kind":"readings","__proto__":{"csv":"x"}}`, 'The body is not JSON'],
    ['holds the sign NUL', JSON.stringify({ kind: 'readings', csv: `${csv}\u0000` }), 'NUL'],
    ['names another kind', JSON.stringify({ kind: 'photos', csv }), 'kind: '],
    ['has no file', JSON.stringify({ kind: 'readings' }), 'csv: '],
  ])('is refused with what is wrong where it %s', async (_what, payload, words) => {
    for (const url of ['/api/import/preview', '/api/import/commit']) {
      const answer = await farm.one.app.inject({
        method: 'POST',
        url,
        headers: { 'content-type': 'application/json' },
        payload,
      });
      expect([url, answer.statusCode]).toEqual([url, 400]);
      const { detail, errors } = problemSchema.parse(answer.json());
      expect(detail).toContain(words);
      if (words.endsWith(': ')) expect(errors?.map(({ pointer }) => pointer)).toContain(`/${words.slice(0, -2)}`);
    }
  });

  test('is refused without a kind of its own', async () => {
    expect((await farm.one.app.inject({ method: 'POST', url: '/api/import/preview' })).statusCode).toBe(400);
  });
});

test('the audit trail says how a file was brought in, and not what was in it', async () => {
  const ask: ImportAsk = { kind: 'readings', site, probe: 'p9', csv: `time,temperature\n${at(3)},40` };
  const { digest } = await preview(ask);
  await commit(ask, digest);
  const { entries } = (await farm.get('/api/audit?words=brought')).json<{ entries: { after: unknown }[] }>();
  expect(entries[0]?.after).toEqual({
    kind: 'readings',
    site,
    probe: 'p9',
    temperatureUnit: 'C',
    columns: {},
    digest: '(left out)',
    csvCharacters: ask.csv.length,
  });
});
